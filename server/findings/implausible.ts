/**
 * Lengths and widths no bone has: the tibia's length between its joint surfaces, and the canal's and the bone's widths against what
 * was measured of that bone. It looks for slips of unit and of decimal place, not for unusual patients.
 */
import type { Plan, Typed } from "../meaning/plan.ts";
import { constant, subtract } from "../quantity/arithmetic.ts";
import { farJointLandmark, landmarkOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { PlanRule, Subject, Verdict } from "./finding.ts";
import { type Bounds, clear, judgeBounds, together } from "./judging.ts";
import { aboutBone, isthmusPlace } from "./places.ts";
import { unitSlipFixes } from "./unit-slip.ts";

/** Nguyen 2018, 228 tibiae: printed range of the length. */
const tibiaLength: Bounds = { least: constant(312, "mm"), most: constant(460, "mm") };

interface Norm {
  /** Of any canal or bone: half the narrowest isthmus, and a third of the shortest tibia, for no range of another length was found. */
  readonly width: Bounds;
  /** Of the canal's narrowest reading: twice the widest isthmus. A canal as wide was not read where it is narrowest. */
  readonly isthmus: Bounds;
  /** What is said where the figures are of another bone. */
  readonly borrowed?: string;
}

const thirdOfTibia = constant(104, "mm");
/** No range was found for the other bones: a third of the shortest tibia and twice the longest, to catch a slip of the unit. */
const anyLength: Bounds = { least: thirdOfTibia, most: constant(920, "mm") };
/** Nguyen 2018: isthmus 7 to 14 mm. */
const tibia: Norm = {
  width: { least: constant(3.5, "mm"), most: thirdOfTibia },
  isthmus: { most: constant(28, "mm") },
};
/** CT studies: isthmus 10.49 ± 1.52 mm; three standard deviations to either side are 5.93 and 15.05 mm. */
const femur: Norm = {
  width: { least: constant(2.965, "mm"), most: thirdOfTibia },
  isthmus: { most: constant(30.1, "mm") },
};
const humerus: Norm = { ...tibia, borrowed: " of a tibia, for no norm of the humerus was found" };

export const rule: PlanRule = {
  kind: "plan",
  slug: "implausible",
  title: "Measure that no bone has",
  why:
    "A length read in the wrong unit, or a digit too many, passes through every later number. " +
    "A tibia outside the printed range or a canal of an impossible width is nearly always such a slip, or a marker read wrongly.",
  grade: "warning",
  basis: {
    mark: "computed",
    text:
      "Nguyen 2018: tibial length 312 to 460 mm (printed), isthmus 7 to 14 mm (printed); CT studies of the femur: isthmus 10.49 ± 1.52 mm " +
      "(printed), its widest and narrowest taken three standard deviations from the mean; widths are held against half the narrowest " +
      "isthmus and a third of the shortest tibia, the narrowest reading of the canal against twice the widest isthmus",
  },
  population:
    "228 tibiae; femora in CT studies whose number was not seen; the length of a femur or a humerus is held against a third of the " +
    "shortest and twice the longest tibia alone, and the widths of a humerus are held against the tibia's",
  limits: [],
  wrong: { change: [["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 632 mm ± 2 mm on ap"]] },
  right: { change: [] },
  check: (subject) => {
    const each = widths(subject.plan);
    // A width told already is not told again as an isthmus.
    const told = each.some((verdict) => verdict.found.length > 0);
    return together([length(subject), ...each, ...(told ? [] : [isthmus(subject)])]);
  },
};

function length({ plan, reckonings }: Subject): Verdict {
  const other = plan.case?.bone?.text !== "tibia";
  const joint = farJointLandmark(plan);
  if (joint === undefined) return clear;
  const far = answerOf(reckonings, `level.${joint.name.text}`);
  const knee = landmarkOf(plan, "knee-joint");
  const value = knee === undefined ? far : subtract(far, answerOf(reckonings, "level.knee-joint"));
  return judgeBounds({
    value,
    bounds: other ? anyLength : tibiaLength,
    grade: "warning",
    unit: "mm",
    place: joint.level.place,
    at: joint.name.text,
    message: (told) =>
      other
        ? `The far joint ${told.may("lies", "may lie")} at ${told.value}; ${told.limit} is ${told.side === "most" ? "twice the longest" : "a third of the shortest"} tibia printed. ` +
          "Check the unit and the marker."
        : `The tibia ${told.may("is", "may be")} ${told.value} long between its joint surfaces; the printed range is ` +
          "312 mm to 460 mm. Check the unit and the marker.",
    related: aboutBone(plan),
    fixes: unitSlipFixes(plan, joint.level, value, other ? anyLength : tibiaLength),
  });
}

function widths(plan: Plan): readonly Verdict[] {
  const { canals, bones } = plan.measures;
  return [
    ...canals.flatMap((canal) => [width(plan, "canal", canal.width), width(plan, "canal", canal.depth)]),
    ...bones.flatMap((bone) => [width(plan, "bone", bone.width), width(plan, "bone", bone.depth)]),
  ];
}

function width(plan: Plan, what: "canal" | "bone", typed: Typed | undefined): Verdict {
  if (typed === undefined) return clear;
  const { width: bounds, borrowed = "" } = normOf(plan);
  return judgeBounds({
    value: typed.quantity,
    bounds,
    grade: "warning",
    unit: "mm",
    place: typed.place,
    message: (told) =>
      `A ${what} of ${told.value} is ${told.side === "most" ? "wider" : "narrower"} than any expected${borrowed}. ` +
      "Check the unit, the decimal point and the marker.",
    related: aboutBone(plan),
    fixes: unitSlipFixes(plan, typed, typed.quantity, bounds),
  });
}

function isthmus(subject: Subject): Verdict {
  const { plan, reckonings } = subject;
  if (plan.measures.canals.length === 0) return clear;
  const { isthmus: bounds, borrowed = "" } = normOf(plan);
  return judgeBounds({
    value: answerOf(reckonings, "canal.isthmus"),
    bounds,
    grade: "warning",
    unit: "mm",
    place: isthmusPlace(subject),
    at: "canal",
    related: aboutBone(plan),
    message: (told) =>
      `The narrowest canal given is ${told.value}, ${told.may("twice as wide as", "which may be twice as wide as")} any isthmus${borrowed}. ` +
      "Read it where it is narrowest, or check the unit and the marker.",
  });
}

function normOf(plan: Plan): Norm {
  const bone = plan.case?.bone?.text;
  return bone === "femur" ? femur : bone === "humerus" ? humerus : tibia;
}
