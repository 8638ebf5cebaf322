/**
 * The nail is sunk less than what backslap, compression and the planned dynamisation will draw it back. When it stands proud already
 * at the end of the operation, that is `nail-proud`.
 */
import type { Typed } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import { nailStepOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import { deeperBy, sinkTo } from "./driving-end.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear, judgeAtLeast, judgeBounds } from "./judging.ts";
import { aboutDrawingBack } from "./places.ts";

const flush = constant(0, "mm");

export const rule: PlanRule = {
  kind: "plan",
  slug: "overinsertion-short",
  title: "Nail not sunk deep enough for what will draw it back",
  why:
    "Backslap, compression and a dynamisation through a slot at the driving end all move the nail back out of the bone. " +
    "It has to be sunk deeper by their sum, or its driving end stands proud in the end.",
  grade: "warning",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [
      ["sunk 8 mm", "sunk 5 mm"],
      ["    cap 5 mm\n", "    cap 0 mm\n"],
      ["    review at 2", "    dynamise at 10 weeks, remove P1\n    review at 2"],
    ],
  },
  right: { change: [["    review at 2", "    dynamise at 10 weeks, remove P1\n    review at 2"]] },
  check: (subject) => {
    const { plan, reckonings } = subject;
    const sunk = nailStepOf(plan)?.sunk;
    if (sunk === undefined) return cannotTell("it is not given how far the nail is sunk");
    const proud = judgeAtLeast(answerOf(reckonings, "nail.topAfter"), flush, "error");
    if (proud?.kind === "beyond") return clear;
    const dynamise = plan.aftercare?.dynamise;
    return judgeBounds({
      value: sunk.quantity,
      bounds: { least: answerOf(reckonings, "overinsertion.needed") },
      side: "least",
      grade: "warning",
      unit: "mm",
      place: sunk.place,
      message: (told) =>
        told.sure
          ? `The nail is sunk ${told.value}, but it will be drawn back ${told.limit} in all.`
          : `The nail is sunk ${told.value} and will be drawn back ${told.limit} in all, which may be more.`,
      related: [
        ...aboutDrawingBack(plan),
        ...(dynamise === undefined ? [] : [{ place: dynamise.place, message: "The planned dynamisation." }]),
      ],
      fixes: deeper(subject, sunk),
    });
  },
};

function deeper({ reckonings }: Subject, sunk: Typed): readonly Fix[] {
  const needed = answerOf(reckonings, "overinsertion.needed");
  return sinkTo(sunk, needed, deeperBy(sunk, needed));
}
