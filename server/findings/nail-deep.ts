/**
 * The driving end ends up deeper below the bone than the limit.
 */
import { constant, subtract } from "../quantity/arithmetic.ts";
import { roundUp } from "../quantity/elementary.ts";
import { print } from "../quantity/print.ts";
import { nailStepOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import { drawnBackBy, sinkTo } from "./driving-end.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { cannotTell, judgeBounds, type Told } from "./judging.ts";
import { passing } from "./limit-words.ts";
import { aboutDrawingBack } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "nail-deep",
  title: "Driving end deep below the bone's surface",
  why:
    "A nail sunk deep is hard to find again when it has to come out, and its proximal holes move towards the fracture. " +
    "It is reckoned from where the driving end lies after backslap and compression.",
  grade: "warning",
  basis: commonPractice,
  limits: ["top-below-bone"],
  wrong: {
    change: [
      ["sunk 8 mm", "sunk 20 mm"],
      ["length 345 mm", "length 330 mm"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const nail = nailStepOf(plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    const cause = drawnBackBy(plan);
    return judgeBounds({
      value: answerOf(reckonings, "nail.topAfter"),
      bounds: limits.get("top-below-bone"),
      side: "most",
      grade: "warning",
      unit: "mm",
      place: (nail.sunk ?? nail).place,
      message: (told) => {
        const after = cause === "" ? "" : ` after ${cause}`;
        return passing(told, `The driving end lies ${told.value} below the bone's surface${after}`);
      },
      related: aboutDrawingBack(plan),
      fixes: (told) => shallower(subject, told),
    });
  },
};

function shallower({ plan }: Subject, told: Told): readonly Fix[] {
  const sunk = nailStepOf(plan)?.sunk;
  if (sunk === undefined || !told.beyond.sure) return [];
  const back = roundUp(told.beyond.margin, constant(1, "mm"));
  const needed = subtract(sunk.quantity, back);
  return sinkTo(sunk, needed, `${print(back, "mm")} less deep`);
}
