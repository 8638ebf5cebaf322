/**
 * The entry lies below or beside the patella and the knee does not bend far enough for it, or is not to be bent that far.
 */
import type { EnterStep, Plan, PositionStep, Said } from "../meaning/plan.ts";
import { print, printValue } from "../quantity/print.ts";
import { stepsOf } from "../reckoning/given.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, judgeBounds, together } from "./judging.ts";

/** Entries for which the patella must be drawn out of the way by bending the knee. */
const belowPatella = new Set(["infrapatellar", "transtendinous", "parapatellar"]);

export const rule: PlanRule = {
  kind: "plan",
  slug: "knee-stiff",
  title: "Knee that does not bend far enough for the entry",
  why:
    "Below the patella the entry can only be reached in line with the canal when the knee is well bent. " +
    "In a stiffer knee the patella drives the instruments backwards; an entry above the patella needs little bending.",
  grade: "warning",
  basis: commonPractice,
  limits: ["knee-flexion"],
  wrong: { change: [["knee-flexion 120 deg", "knee-flexion 80 deg"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const enter = stepsOf(plan, "enter").at(-1);
    if (plan.case?.bone?.text !== "tibia") return clear;
    if (enter?.approach === undefined) return cannotTell("no approach is given");
    const { approach } = enter;
    if (!belowPatella.has(approach.text)) return clear;
    const knee = ofPatient(subject, enter, approach);
    // A knee that may be too stiff says nothing of a table on which it is surely bent too little.
    if (knee.found.some(({ probability = 1 }) => probability >= 0.95)) return knee;
    return together([knee, ...stepsOf(plan, "position").map((step) => asPositioned(subject, step, approach))]);
  },
};

function ofPatient({ plan, limits }: Subject, enter: EnterStep, approach: Said): Verdict {
  const flexion = plan.case?.kneeFlexion;
  if (flexion === undefined) return cannotTell("it is not given how far the knee bends");
  return judgeBounds({
    value: flexion.quantity,
    bounds: limits.get("knee-flexion"),
    side: "least",
    grade: "warning",
    unit: "deg",
    place: flexion.place,
    message: (told) => {
      const entry = `an entry ${approach.text} wants`;
      return told.sure
        ? `The knee bends only ${told.value}; ${entry} at least ${told.limit}.`
        : `The knee bends ${told.value}, which may be less than the ${told.limit} ${entry}.`;
    },
    related: [{ place: enter.place, message: "The entry." }],
    fixes: abovePatella(plan, approach),
  });
}

function asPositioned({ plan, limits }: Subject, step: PositionStep, approach: Said): Verdict {
  const { knee } = step;
  if (knee === undefined) return clear;
  const { least } = limits.get("knee-flexion");
  const further: Fix[] =
    least === undefined
      ? []
      : [
          {
            title: `knee ${printValue(knee.quantity, "deg")} → ${printValue(least, "deg")}`,
            class: "changes a decision",
            edits: [{ span: knee.place.span, text: printValue(least, "deg") }],
          },
        ];
  return judgeBounds({
    value: knee.quantity,
    bounds: limits.get("knee-flexion"),
    side: "least",
    grade: "warning",
    unit: "deg",
    place: knee.place,
    message: (told) =>
      told.sure
        ? `The knee is to be bent only ${told.value} on the table; the entry wants at least ${told.limit}.`
        : `The knee is to be bent ${told.value} on the table, which may be less than the ${told.limit} the entry wants.`,
    fixes: [...further, ...abovePatella(plan, approach)],
  });
}

function abovePatella(plan: Plan, approach: Said): readonly Fix[] {
  const kneeFlexion = plan.case?.kneeFlexion;
  const bends = kneeFlexion === undefined ? "" : `: the knee bends ${print(kneeFlexion.quantity, "deg")}`;
  return [
    {
      title: `enter ${approach.text} → suprapatellar${bends}`,
      class: "needs a choice",
      edits: [{ span: approach.place.span, text: "suprapatellar" }],
    },
  ];
}
