/**
 * A locking hole lies nearer to the fracture than the limit. A hole inside the fracture is `screw-in-fracture`.
 */
import { constant } from "../quantity/arithmetic.ts";
import { locksOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, clear, judgeAtLeast, judgeBounds, together } from "./judging.ts";
import { falling } from "./limit-words.ts";
import { aboutFracture, aboutHole } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screw-near-fracture",
  title: "Locking screw close to the fracture",
  why:
    "Close to the fracture a fissure nobody saw may run into the hole, and the screw breaks out. " +
    "The distance is reckoned from the hole's middle to the nearer edge of the fracture.",
  grade: "warning",
  basis: commonPractice,
  limits: ["hole-to-fracture"],
  wrong: {
    change: [
      ["    hole D2, tip 26 mm", "    hole M1, top 199 mm, runs medial-lateral, takes peg\n    hole D2, tip 26 mm"],
      ["    cap 5 mm\n", "    lock M1, drilled 23 mm, screw 24 mm\n    cap 5 mm\n"],
      ["take D1, D2, P2", "take D1, D2, P2, M1"],
    ],
  },
  right: { change: [] },
  check: ({ plan, reckonings, limits }) => {
    if (plan.case?.fracture === undefined) return cannotTell("no fracture is given");
    const verdicts = locksOf(plan).map((lock) => {
      const hole = lock.hole.text;
      const value = answerOf(reckonings, `hole.${hole}.toFracture`);
      if (judgeAtLeast(value, constant(0, "mm"), "error")?.kind === "beyond") return clear;
      return judgeBounds({
        value,
        bounds: limits.get("hole-to-fracture"),
        side: "least",
        grade: "warning",
        unit: "mm",
        place: lock.hole.place,
        at: hole,
        message: (told) => falling(told, `Hole ${hole} lies ${told.value} from the fracture`),
        related: [...aboutFracture(plan), ...aboutHole(plan, hole)],
      });
    });
    return together(verdicts);
  },
};
