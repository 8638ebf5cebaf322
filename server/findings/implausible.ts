/**
 * Lengths and widths no bone has: the tibia's length between its joint surfaces, and the canal's and the bone's widths. It looks
 * for slips of unit and of decimal place, not for unusual patients.
 */
import type { Measures, Plan, Typed } from "../meaning/plan.ts";
import { constant, subtract } from "../quantity/arithmetic.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { PlanRule, Subject, Verdict } from "./finding.ts";
import { type Bounds, clear, judgeBounds, together } from "./judging.ts";
import { unitSlipFixes } from "./unit-slip.ts";

/** Nguyen 2018, 228 tibiae: printed range of the length. */
const tibiaLength: Bounds = { least: constant(312, "mm"), most: constant(460, "mm") };
/** Half the narrowest isthmus printed there (7 mm), and a third of the shortest tibia. */
const anyWidth: Bounds = { least: constant(3.5, "mm"), most: constant(104, "mm") };

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
      "Nguyen 2018: tibial length 312 to 460 mm (printed), isthmus 7 to 14 mm (printed); widths are held against half the " +
      "narrowest isthmus and a third of the shortest tibia",
  },
  population: "228 tibiae; no range of length is held against a femur or a humerus",
  limits: [],
  wrong: { change: [["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 632 mm ± 2 mm on ap"]] },
  right: { change: [] },
  check: (subject) => together([length(subject), ...widths(subject.plan)]),
};

function length({ plan, reckonings }: Subject): Verdict {
  if (plan.case?.bone?.text !== "tibia") return clear;
  const plafond = landmark(plan.measures, "plafond") ?? landmark(plan.measures, "joint");
  if (plafond === undefined) return clear;
  const knee = landmark(plan.measures, "knee-joint");
  const far = answerOf(reckonings, "level.plafond");
  const value = knee === undefined ? far : subtract(far, answerOf(reckonings, "level.knee-joint"));
  return judgeBounds({
    value,
    bounds: tibiaLength,
    grade: "warning",
    unit: "mm",
    place: plafond.place,
    at: "plafond",
    message: (told) =>
      `The tibia ${told.may("is", "may be")} ${told.value} long between its joint surfaces; the printed range is ` +
      "312 mm to 460 mm. Check the unit and the marker.",
    fixes: unitSlipFixes(plan, plafond, value, tibiaLength),
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
  return judgeBounds({
    value: typed.quantity,
    bounds: anyWidth,
    grade: "warning",
    unit: "mm",
    place: typed.place,
    message: (told) =>
      `A ${what} of ${told.value} is ${told.side === "most" ? "wider" : "narrower"} than any expected. ` +
      "Check the unit, the decimal point and the marker.",
    fixes: unitSlipFixes(plan, typed, typed.quantity, anyWidth),
  });
}

function landmark(measures: Measures, name: string): Typed | undefined {
  return measures.landmarks.find((mark) => mark.name.text === name)?.level;
}
