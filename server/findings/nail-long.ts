/**
 * The nail's tip comes too near the far joint: past the physeal scar, or nearer to the joint than the limit. One nail that is too
 * long is one finding, told by the gravest of these.
 */
import type { Landmark, NailStep } from "../meaning/plan.ts";
import { add, constant, subtract } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { farJointLandmark, farJointName, landmarkOf, nailStepOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, judgeAtLeast, judgeBounds, type Told, together } from "./judging.ts";
import { falling, isNominal } from "./limit-words.ts";
import { isLength, lengthsOf } from "./listed-sizes.ts";

const flush = constant(0, "mm");

export const rule: PlanRule = {
  kind: "plan",
  slug: "nail-long",
  title: "Nail too long for the bone",
  why:
    "A nail that is too long enters the far joint, splits its surface or holds the fracture apart. " +
    "Between two lengths the shorter is taken; the tip stays about the physeal scar and off the joint.",
  grade: "warning",
  basis: commonPractice,
  limits: ["tip-to-plafond"],
  wrong: { change: [["length 345 mm", "length 360 mm"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const nail = nailStepOf(plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    const joint = farJointLandmark(plan);
    const scar = landmarkOf(plan, "scar");
    if (joint === undefined && scar === undefined)
      return cannotTell(`neither a scar nor a ${farJointName(plan)} is given`);
    const verdicts = [
      ...(joint === undefined ? [] : [intoJoint(subject, nail, joint), nearJoint(subject, nail, joint)]),
      ...(scar === undefined ? [] : [pastScar(subject, nail, scar)]),
    ];
    return verdicts.find((verdict) => verdict.found.length > 0) ?? together(verdicts);
  },
};

function intoJoint(subject: Subject, nail: NailStep, joint: Landmark): Verdict {
  return judgeBounds({
    ...common(subject, nail, answerOf(subject.reckonings, "tip.toPlafond"), joint),
    bounds: { least: flush },
    grade: "error",
    message: (told) => reaching(told, "joint surface"),
  });
}

function nearJoint(subject: Subject, nail: NailStep, joint: Landmark): Verdict {
  return judgeBounds({
    ...common(subject, nail, answerOf(subject.reckonings, "tip.toPlafond"), joint),
    bounds: subject.limits.get("tip-to-plafond"),
    grade: "warning",
    message: (told) => falling(told, `The tip lies ${told.value} short of the joint surface`),
  });
}

function pastScar(subject: Subject, nail: NailStep, scar: Landmark): Verdict {
  return judgeBounds({
    ...common(subject, nail, answerOf(subject.reckonings, "tip.toScar"), scar),
    bounds: { least: flush },
    grade: "warning",
    message: (told) => reaching(told, "physeal scar"),
  });
}

function reaching(told: Told, mark: string): string {
  if (!told.sure && !isNominal(told)) return `The tip lies ${told.value} short of the ${mark} and may reach past it.`;
  return `The tip ${told.may("lies", "may lie")} ${told.margin} past the ${mark}.`;
}

/** A waiver calls the mark as the plan does. */
function common(subject: Subject, nail: NailStep, value: Quantity, mark: Landmark) {
  return {
    value,
    side: "least",
    unit: "mm",
    place: (nail.length ?? nail).place,
    at: mark.name.text,
    related: [{ place: mark.place, message: `The landmark ${mark.name.text}.` }],
    fixes: shorterNail(subject),
  } as const;
}

/** The longest listed length below this one that leaves nothing to be found. */
function shorterNail(subject: Subject): readonly Fix[] {
  const { plan } = subject;
  const typed = nailStepOf(plan)?.length;
  if (typed === undefined || !isLength(typed.quantity)) return [];
  const now = typed.quantity;
  const length = lengthsOf(plan.nail?.lengths).findLast((each) => each.value < now.value && fits(subject, now, each));
  if (length === undefined) return [];
  const scar = room(subject, "tip.toScar", now, length);
  const left = scar.kind === "known" ? scar : room(subject, "tip.toPlafond", now, length);
  const mark = scar.kind === "known" ? "scar" : "joint surface";
  return [
    {
      title: `nail ${printValue(now, "mm")} → ${printValue(length, "mm")}: tip ${printValue(left, "mm")} short of the ${mark}`,
      class: "changes a decision",
      edits: [{ span: typed.place.span, text: printValue(length, "mm") }],
    },
  ];
}

function fits(subject: Subject, now: Known, length: Known): boolean {
  const { least } = subject.limits.get("tip-to-plafond");
  return (
    judgeAtLeast(room(subject, "tip.toScar", now, length), flush, "warning")?.kind !== "beyond" &&
    judgeAtLeast(room(subject, "tip.toPlafond", now, length), least, "warning")?.kind !== "beyond"
  );
}

/** What a shorter nail would leave, from what this one leaves. */
function room({ reckonings }: Subject, id: string, now: Known, length: Known): Quantity {
  return add(answerOf(reckonings, id), subtract(now, length));
}
