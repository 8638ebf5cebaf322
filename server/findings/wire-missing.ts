/**
 * Reaming is planned and no guide wire is. A wire that comes after the reamers is `step-order`.
 */
import type { Plan, ReamStep } from "../meaning/plan.ts";
import { stepsOf } from "../reckoning/given.ts";
import { reasonOf } from "../reckoning/order.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { clear } from "./judging.ts";
import { insertBefore } from "./line-edits.ts";
import { movable } from "./step-order-of.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "wire-missing",
  title: "Reaming without a guide wire",
  why:
    "The reamer heads run over the guide wire; without it they follow the way of least resistance and can leave the bone. " +
    "A ball at its tip also lets a stuck head be drawn back.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["    wire ball-tip\n", ""]] },
  right: { change: [] },
  check: ({ plan, text }) => {
    const [ream] = stepsOf(plan, "ream");
    if (ream === undefined || stepsOf(plan, "wire").length > 0 || isToldInOperation(plan, ream)) return clear;
    const fix = {
      title: "put in `wire ball-tip` before reaming",
      class: "changes a decision",
      edits: [insertBefore(text, ream.place.span, "wire ball-tip")],
    } as const;
    return {
      found: [
        {
          place: ream.wordPlace,
          message: `Reaming is planned, but no guide wire is passed before it, and ${reasonOf("wire")}.`,
          at: "wire",
          fixes: [fix],
        },
      ],
    };
  },
};

/** A fallback that only reams further repeats nothing: the wire is missing where the operation reams. */
function isToldInOperation(plan: Plan, ream: ReamStep): boolean {
  const operation = plan.statement.block?.statements.find((statement) => statement.word.name === "operation");
  const reams = operation?.block?.statements.some((statement) => statement.word.name === "ream") ?? false;
  return reams && !movable(plan, [ream]);
}
