/**
 * The driving end of a tibial nail ends up close below the knee joint, where the plan gives the joint's level. The same series' distance
 * from the tuberosity is not judged: how far in front the nail's end lies is not part of a plan.
 */
import { add, constant } from "../quantity/arithmetic.ts";
import { roundDown } from "../quantity/elementary.ts";
import { nailStepOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { deeperBy, sinkTo } from "./driving-end.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear, judgeBounds, type Told } from "./judging.ts";
import { nearJointSource } from "./limit-table.ts";
import { falling } from "./limit-words.ts";
import { aboutDrawingBack, aboutLandmark } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "nail-near-joint",
  title: "Driving end close below the knee joint",
  why:
    "In one series no one had pain in front of the knee whose nail ended more than 6 mm from the plateau and 2.6 mm from the tuberosity. " +
    "Pain there is the most common complaint after tibial nailing and has many causes; this is one that is planned.",
  grade: "information",
  basis: nearJointSource,
  population: "tibiae; a single series",
  limits: ["top-below-joint"],
  wrong: { change: [["    landmark plafond", "    landmark knee-joint 1 mm\n    landmark plafond"]] },
  right: { change: [["    landmark plafond", "    landmark knee-joint -2 mm\n    landmark plafond"]] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const nail = nailStepOf(plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    if (!reckonings.byId.has("nail.toKneeJoint")) return clear;
    return judgeBounds({
      value: answerOf(reckonings, "nail.toKneeJoint"),
      bounds: limits.get("top-below-joint"),
      side: "least",
      strict: true,
      grade: "information",
      unit: "mm",
      place: (nail.sunk ?? nail).place,
      message: (told) => falling(told, `The driving end ends up ${told.value} below the knee joint`),
      related: [...aboutLandmark(plan, "knee-joint"), ...aboutDrawingBack(plan)],
      fixes: (told) => deeper(subject, told),
    });
  },
};

/** Sunk to the next whole millimetre beyond the limit; the tip goes as much deeper. */
function deeper({ plan }: Subject, told: Told): readonly Fix[] {
  const sunk = nailStepOf(plan)?.sunk;
  if (sunk === undefined || !told.beyond.sure) return [];
  const millimetre = constant(1, "mm");
  const least = add(sunk.quantity, told.beyond.margin);
  const needed = add(roundDown(least, millimetre), millimetre);
  return sinkTo(sunk, needed, deeperBy(sunk, needed));
}
