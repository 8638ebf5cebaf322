/**
 * A screw that is to hold in both cortices does not reach the far one as the limit asks.
 */
import { compare, constant } from "../quantity/arithmetic.ts";
import { locksOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, judgeBounds, type Told, together } from "./judging.ts";
import { falling, isNominal } from "./limit-words.ts";
import { aboutHole } from "./places.ts";
import { bestScrew, isListedScrew } from "./screw-choice.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screw-short",
  title: "Screw that does not reach through the far cortex",
  why:
    "A screw that ends inside the bone holds in one cortex and carries the load as a lever. " +
    "Screw lengths are rounded up to the next listed one, so that the tip just passes the far cortex.",
  grade: "warning",
  basis: commonPractice,
  limits: ["tip-beyond-cortex"],
  wrong: { change: [["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw 28 mm"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const verdicts = locksOf(plan)
      .filter((lock) => lock.grip === "both")
      .map((lock) => {
        const hole = lock.hole.text;
        if (!isListedScrew(plan, lock)) return cannotTell(`the screw in hole ${hole} is not listed`);
        return judgeBounds({
          value: answerOf(reckonings, `screw.${hole}.beyond`),
          bounds: limits.get("tip-beyond-cortex"),
          side: "least",
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
  const stands = `The screw in ${hole} stands ${told.value} past the far cortex`;
  if (compare(told.beyond.limit, constant(0, "mm")) !== 0) return falling(told, stands);
  if (!told.sure && !isNominal(told)) return `${stands} and may end short of it.`;
  return `The screw in ${hole} ${told.may("ends", "may end")} ${told.margin} short of the far cortex.`;
}
