/**
 * A screw that is to hold in the near cortex alone is longer than what was drilled.
 */
import { constant, negate } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import { locksOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, judgeBounds, type Told, together } from "./judging.ts";
import { isNominal } from "./limit-words.ts";
import { aboutHole } from "./places.ts";
import { bestScrew, isListedScrew } from "./screw-choice.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screw-perforates",
  title: "Screw for the near cortex that goes past what was drilled",
  why:
    "A screw that stops before the far cortex is chosen where something lies behind it: the fibula, the joint, a nerve. " +
    "Longer than the drilled depth it goes where nothing was meant to go.",
  grade: "warning",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["drilled 51 mm, screw 52 mm", "drilled 51 mm, screw 52 mm, grip near"]] },
  right: { change: [["drilled 51 mm, screw 52 mm", "drilled 51 mm, screw 50 mm, grip near"]] },
  check: (subject) => {
    const { plan, reckonings } = subject;
    const verdicts = locksOf(plan)
      .filter((lock) => lock.grip === "near")
      .map((lock) => {
        const hole = lock.hole.text;
        if (!isListedScrew(plan, lock)) return cannotTell(`the screw in hole ${hole} is not listed`);
        return judgeBounds({
          value: answerOf(reckonings, `screw.${hole}.beyond`),
          bounds: { most: constant(0, "mm") },
          side: "most",
          grade: "warning",
          unit: "mm",
          place: (lock.screw ?? lock).place,
          at: hole,
          message: (told) => words(hole, told),
          related: aboutHole(plan, hole),
          fixes: bestScrew(subject, lock),
        });
      });
    return together(verdicts);
  },
};

function words(hole: string, told: Told): string {
  const grips = `The screw in ${hole} grips the near cortex alone`;
  if (told.sure || isNominal(told)) {
    return `${grips}, but ${told.may("is", "may be")} ${told.margin} longer than the drilled depth.`;
  }
  return `${grips}; ${print(negate(told.beyond.value), "mm")} shorter than drilled, it may go past the drilled depth.`;
}
