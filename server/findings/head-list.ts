/**
 * Writing a reaming list anew: the least change of what was typed that gives the heads wanted. Which heads those are is for the
 * rules to say.
 */
import type { Edit } from "../../grammar/problems.ts";
import type { RangeItem } from "../../grammar/tree.ts";
import type { Plan, ReamStep } from "../meaning/plan.ts";
import { compare, subtract } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { isLength, lengthsOf, pairsOf } from "./listed-sizes.ts";
import { itemsOf, statementsIn } from "./tree-walk.ts";

/** The heads of one reaming step in order; undefined when one of them is unknown. */
export function headsOf(ream: ReamStep): readonly Known[] | undefined {
  const heads = ream.heads.sizes.map((size) => size.quantity);
  return heads.every(isLength) ? heads : undefined;
}

/** Every head the catalogues read list, small to large. */
export function listedHeads(plan: Plan): readonly Known[] {
  return lengthsOf(...plan.reamers.map((reamers) => reamers.heads));
}

/** The edits that make `ream` read as `heads`. Empty when it stands in another file or there are no heads. */
export function rewriteHeads(plan: Plan, ream: ReamStep, heads: readonly Known[]): readonly Edit[] {
  const [first, last] = [heads[0], heads.at(-1)];
  const { file, span } = ream.heads.place;
  if (file !== plan.file || first === undefined || last === undefined) return [];
  const range = rangeAt(plan, ream);
  const step = evenStep(heads);
  const old = ream.heads.sizes.map((size) => size.quantity);
  if (range?.by === undefined || step === undefined) return [{ span, text: written(heads) }];
  return [
    ...changed(old[0], first, range.from.span),
    ...changed(old.at(-1), last, range.to.span),
    ...changed(evenStep(old), step, range.by.span),
  ];
}

/** The heads as they are typed: a range with its step when they grow evenly, else one by one. */
export function written(heads: readonly Known[]): string {
  const [first, last, step] = [heads[0], heads.at(-1), evenStep(heads)];
  if (first === undefined || last === undefined || step === undefined || heads.length < 3) {
    return heads.map(inMillimetres).join(", ");
  }
  return `${inMillimetres(first)} to ${inMillimetres(last)} by ${inMillimetres(step)}`;
}

/** The step between heads that grow evenly. */
function evenStep(heads: readonly Quantity[]): Known | undefined {
  const steps = pairsOf(heads).map(([before, head]) => subtract(head, before));
  const [first] = steps;
  if (!isLength(first) || first.value <= 0) return undefined;
  return steps.every((step) => isLength(step) && compare(step, first) === 0) ? first : undefined;
}

function changed(old: Quantity | undefined, now: Known, span: Edit["span"]): readonly Edit[] {
  return isLength(old) && compare(old, now) === 0 ? [] : [{ span, text: inMillimetres(now) }];
}

function rangeAt(plan: Plan, ream: ReamStep): RangeItem | undefined {
  const { start, end } = ream.heads.place.span;
  for (const statement of statementsIn(plan.statement, (inner) => inner.span.end < start || inner.span.start > end)) {
    for (const item of itemsOf(statement)) {
      if (item.kind === "range" && item.span.start === start && item.span.end === end) return item;
    }
  }
  return undefined;
}

function inMillimetres(head: Known): string {
  return printValue(head, "mm");
}
