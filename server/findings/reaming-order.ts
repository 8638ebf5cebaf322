/**
 * A reamer head follows one that is as large or larger. How much a head may grow by is `reaming-step`.
 */
import type { Plan, ReamStep, Typed } from "../meaning/plan.ts";
import { compare } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import { stepsOf } from "../reckoning/given.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, Found, PlanRule } from "./finding.ts";
import { rewriteHeads, written } from "./head-list.ts";
import { cannotTell, clear } from "./judging.ts";
import { isLength, lengthsOf, pairsOf } from "./listed-sizes.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "reaming-order",
  title: "Reamer heads that do not grow",
  why:
    "A head no larger than the one before it cuts nothing. " +
    "The list is read in order, so a slip here usually means a head typed twice or in the wrong place.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm, 9 mm, 10 mm, 9.5 mm, 10.5 mm, 11 mm"]],
  },
  right: { change: [["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm, 9 mm, 9.5 mm, 10 mm, 10.5 mm, 11 mm"]] },
  check: ({ plan }) => {
    const reams = stepsOf(plan, "ream");
    const heads = reams.flatMap((ream) => ream.heads.sizes);
    const unread = heads.find((head) => !isLength(head.quantity));
    if (unread !== undefined) return cannotTell("a reamer head is unknown");
    const [first] = pairsOf(heads).filter(([before, head]) => !grows(before, head));
    return first === undefined ? clear : { found: [finding(plan, reams, ...first)] };
  },
};

function finding(plan: Plan, reams: readonly ReamStep[], before: Typed, head: Typed): Found {
  const [earlier, later] = [printValue(before.quantity, "mm"), printValue(head.quantity, "mm")];
  return {
    place: head.place,
    message: `The ${later} head follows the ${earlier} head; each head must be larger than the one before it.`,
    value: head.quantity,
    limit: before.quantity,
    unit: "mm",
    probability: 1,
    related: [{ place: before.place, message: "The head before it." }],
    fixes: reams.length > 1 ? [] : reams.flatMap((ream) => sorted(plan, ream)),
  };
}

function grows(before: Typed, head: Typed): boolean {
  return isLength(before.quantity) && isLength(head.quantity) && compare(head.quantity, before.quantity) > 0;
}

function sorted(plan: Plan, ream: ReamStep): readonly Fix[] {
  const heads = lengthsOf(ream.heads);
  const edits = rewriteHeads(plan, ream, heads);
  return [{ title: `heads in order, each once: ${written(heads)}`, class: "changes a decision", edits }];
}
