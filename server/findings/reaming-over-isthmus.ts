/**
 * The last reamer head is larger than the isthmus by more than the department wishes. There is no published limit, so this is
 * information only.
 */
import { stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { noFigure } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { clear, judgeBounds } from "./judging.ts";
import { passing } from "./limit-words.ts";
import { isthmusPlace } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "reaming-over-isthmus",
  title: "Reamed far over the isthmus",
  why:
    "What the last head is wider than the narrowest place is cut out of the cortex there. A nail that asks for much of it is thick for " +
    "this canal; a thinner one needs less. How much is too much no one has published.",
  grade: "information",
  basis: noFigure,
  limits: ["reaming-over-isthmus"],
  wrong: {
    change: [
      ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to 13 mm by 0.5 mm"],
      ["diameter 10 mm", "diameter 12 mm"],
      ['  fallback "the 10 mm nail stops at the isthmus" {\n    ream 8.5 mm to 11.5 mm by 0.5 mm\n  }\n\n', ""],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const ream = stepsOf(plan, "ream").at(-1);
    if (ream === undefined) return clear;
    return judgeBounds({
      value: answerOf(reckonings, "ream.overIsthmus"),
      bounds: limits.get("reaming-over-isthmus"),
      side: "most",
      grade: "information",
      unit: "mm",
      place: ream.heads.place,
      message: (told) => passing(told, `The last head is ${told.value} over the isthmus`),
      related: [{ place: isthmusPlace(subject), message: "The isthmus." }],
    });
  },
};
