/**
 * Reaming leaves less cortex than the department wishes: information, for there is no published limit. A reamed canal as wide as the
 * bone leaves none, which is impossible geometry whatever the department wishes.
 */
import { constant } from "../quantity/arithmetic.ts";
import { stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { noFigure } from "./common-practice.ts";
import type { PlanRule, Verdict } from "./finding.ts";
import { cannotTell, clear, judgeBounds, type Question } from "./judging.ts";
import { falling } from "./limit-words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "cortex-thin",
  title: "Thin cortex left after reaming",
  why:
    "Where the final head leaves little cortex the bone is weaker and heats sooner. " +
    "It is reckoned at each level where bone and canal are given; how much is enough no one has published. " +
    "Where none is left, the readings or the heads are wrong, and that is an error.",
  grade: "information",
  basis: noFigure,
  limits: ["cortex-left"],
  wrong: { change: [["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 19 mm on ap"]] },
  right: { change: [] },
  check: ({ plan, reckonings, limits }) => {
    const ream = stepsOf(plan, "ream").at(-1);
    const left = reckonings.byId.get("ream.cortexLeft");
    if (ream === undefined || left === undefined) return clear;
    const asked: Asked = {
      value: answerOf(reckonings, "ream.cortexLeft"),
      side: "least",
      unit: "mm",
      place: ream.heads.place,
      related: left.from
        .filter((place) => place.file === plan.file)
        .slice(0, 2)
        .map((place) => ({ place, message: "It is reckoned from here." })),
    };
    const none = noneLeft(asked);
    if (none.found.length > 0) return none;
    const { bones, canals } = plan.measures;
    if (bones.length === 0) return cannotTell("no outer width of the bone is given");
    if (canals.some((canal) => canal.width === undefined || canal.depth === undefined)) {
      return cannotTell("the canal is read in one plane only");
    }
    return judgeBounds({
      ...asked,
      bounds: limits.get("cortex-left"),
      grade: "information",
      message: (told) => falling(told, `Reaming leaves ${told.value} of cortex at the thinnest`),
    });
  },
};

type Asked = Omit<Question, "bounds" | "grade" | "message">;

/** None at one place is enough to be impossible, whatever is not read elsewhere. */
function noneLeft(asked: Asked): Verdict {
  return judgeBounds({
    ...asked,
    bounds: { least: constant(0, "mm") },
    strict: true,
    grade: "error",
    message: (told) =>
      `Reaming ${told.may("leaves", "may leave")} no cortex at the thinnest: ` +
      `half of what the bone is wider than the reamed canal is ${told.value}.`,
  });
}
