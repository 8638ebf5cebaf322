/**
 * One hole of the nail is locked twice.
 */
import type { LockStep } from "../meaning/plan.ts";
import { stepsOf } from "../reckoning/given.ts";
import { geometry } from "./common-practice.ts";
import type { Fix, PlanRule } from "./finding.ts";
import { takeOut } from "./line-edits.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "hole-repeated",
  title: "Hole that is locked twice",
  why:
    "One hole takes one screw, so one of the two lines is a slip, most often a hole name left over from copying. " +
    "Only the first is reckoned with.",
  grade: "error",
  basis: geometry,
  limits: [],
  wrong: {
    change: [["    compress 2 turns\n", "    lock P2, drilled 53 mm, screw 54 mm\n    compress 2 turns\n"]],
  },
  right: { change: [] },
  check: ({ plan, text }) => {
    const first = new Map<string, LockStep>();
    const again: { readonly lock: LockStep; readonly before: LockStep }[] = [];
    for (const lock of stepsOf(plan, "lock")) {
      const before = first.get(lock.hole.text);
      if (before === undefined) first.set(lock.hole.text, lock);
      else again.push({ lock, before });
    }
    return {
      found: again.map(({ lock, before }) => {
        const hole = lock.hole.text;
        const fix: Fix = {
          title: `take out the second lock of ${hole}`,
          class: "needs a choice",
          edits: [takeOut(text, lock.place.span)],
        };
        return {
          place: lock.hole.place,
          message: `Hole ${hole} is locked already; one hole takes one screw.`,
          at: hole,
          related: [{ place: before.hole.place, message: `Hole ${hole} is locked here first.` }],
          fixes: [fix],
        };
      }),
    };
  },
};
