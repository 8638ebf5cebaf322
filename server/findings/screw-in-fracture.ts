/**
 * A locking hole lies in the fracture itself.
 */
import { constant } from "../quantity/arithmetic.ts";
import { locksOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { geometry } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, judgeBounds, together } from "./judging.ts";
import { isNominal } from "./limit-words.ts";
import { aboutFracture, aboutHole } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screw-in-fracture",
  title: "Locking screw in the fracture",
  why:
    "A screw between the fragments holds neither of them and can drive them apart. " +
    "The hole's level is held against both edges of the fracture.",
  grade: "error",
  basis: geometry,
  limits: [],
  wrong: {
    change: [
      ["    hole D2, tip 26 mm", "    hole M1, top 190 mm, runs medial-lateral, takes peg\n    hole D2, tip 26 mm"],
      ["    cap 5 mm\n", "    lock M1, drilled 23 mm, screw 24 mm\n    cap 5 mm\n"],
      ["take D1, D2, P2", "take D1, D2, P2, M1"],
    ],
  },
  right: { change: [] },
  check: ({ plan, reckonings }) => {
    if (plan.case?.fracture === undefined) return cannotTell("no fracture is given");
    const verdicts = locksOf(plan).map((lock) => {
      const hole = lock.hole.text;
      return judgeBounds({
        value: answerOf(reckonings, `hole.${hole}.toFracture`),
        bounds: { least: constant(0, "mm") },
        side: "least",
        grade: "error",
        unit: "mm",
        place: lock.hole.place,
        at: hole,
        message: (told) =>
          told.sure || isNominal(told)
            ? `Hole ${hole} ${told.may("lies", "may lie")} ${told.margin} inside the fracture.`
            : `Hole ${hole} lies ${told.value} from the fracture and may lie inside it.`,
        related: [...aboutFracture(plan), ...aboutHole(plan, hole)],
      });
    });
    return together(verdicts);
  },
};
