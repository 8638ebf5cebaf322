/**
 * The tip of a screw stands further past the far cortex than the limit. A screw that is to hold in the near cortex alone is judged in
 * `screw-perforates`.
 */
import { locksOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, judgeBounds, together } from "./judging.ts";
import { passing } from "./limit-words.ts";
import { aboutHole } from "./places.ts";
import { bestScrew, isListedScrew } from "./screw-choice.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screw-overlength",
  title: "Screw tip further past the far cortex than the limit",
  why:
    "A long tip irritates what lies behind the bone: the skin on the inner side, the fibula and the peroneal nerve on the outer. " +
    "One or two threads past the far cortex hold as well as more.",
  grade: "warning",
  basis: commonPractice,
  limits: ["tip-beyond-cortex"],
  wrong: { change: [["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw 40 mm"]] },
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
          side: "most",
          grade: "warning",
          unit: "mm",
          place: (lock.screw ?? lock).place,
          at: hole,
          message: (told) => passing(told, `The screw in ${hole} stands ${told.value} past the far cortex`),
          related: aboutHole(plan, hole),
          fixes: bestScrew(subject, lock),
        });
      });
    return together(verdicts);
  },
};
