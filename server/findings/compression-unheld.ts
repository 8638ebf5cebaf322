/**
 * After the compression no fixed screw holds the driving end. A fixed screw that goes in before it is `compression-unprepared`.
 */
import { stepsOf } from "../reckoning/given.ts";
import { locksAtDrivingEnd, standsInSlot } from "../reckoning/order.ts";
import { commonPractice } from "./common-practice.ts";
import { endsUntold } from "./driving-end.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "compression-unheld",
  title: "Compression that no fixed screw holds",
  why:
    "In a slot the nail can slide back as soon as the compression screw is out or gives way. " +
    "A fixed screw at the driving end keeps what the compression has gained.",
  grade: "warning",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [
      [
        "hole P1, top 40 mm, runs medial-lateral, takes peg",
        "hole P1, top 40 mm, runs medial-lateral, slot 6 mm, takes peg",
      ],
    ],
  },
  right: { change: [] },
  check: ({ plan }) => {
    const compress = stepsOf(plan, "compress").at(-1);
    if (compress === undefined) return clear;
    const untold = endsUntold(plan);
    if (untold !== undefined) return cannotTell(untold);
    const ends = locksAtDrivingEnd(plan);
    if (ends.some((lock) => !standsInSlot(plan, lock))) return clear;
    return found({
      place: compress.wordPlace,
      message: "No fixed screw at the driving end holds the compression afterwards.",
      related: ends.map((lock) => ({ place: lock.wordPlace, message: `Hole ${lock.hole.text} is a slot.` })),
    });
  },
};
