/**
 * Writes a range with a step out into its sizes, without letting the steps' rounding add up. Where the sizes stand and who tells
 * a refusal is left to the reader.
 */
import { add, exact, isExact, scale, unknown, valueIn } from "../quantity/arithmetic.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { sameDimension, usualUnit } from "../quantity/units.ts";

/** More than any tray or catalogue lists; a slip in a step would give millions. */
export const mostSizes = 1_000;

export type WrittenOut =
  | { readonly kind: "sizes"; readonly sizes: readonly Quantity[] }
  | { readonly kind: "refused"; readonly found: string; readonly expected: string };

/**
 * The sizes `from`, `from + by`, … up to `to`; what lies beyond the last whole step is left out. One unknown end or step gives one
 * unknown size.
 */
export function writeOut(from: Quantity, to: Quantity, by: Quantity | undefined): WrittenOut {
  if (from.kind === "unknown" || to.kind === "unknown") {
    return { kind: "sizes", sizes: [from.kind === "unknown" ? from : to] };
  }
  if (by === undefined) {
    return { kind: "sizes", sizes: [unknown("the range has no step")] };
  }
  if (by.kind === "unknown") {
    return { kind: "sizes", sizes: [by] };
  }
  if (!sameDimension(from.dimension, to.dimension) || !sameDimension(from.dimension, by.dimension)) {
    return { kind: "refused", found: "a range of different dimensions", expected: "one dimension throughout" };
  }
  if (by.value === 0) {
    return { kind: "refused", found: "a step of 0", expected: "a step above 0" };
  }
  const ratio = (to.value - from.value) / by.value;
  if (ratio < 0) {
    return { kind: "refused", found: "a step away from the end", expected: "a step that leads to the end" };
  }
  const steps = wholeSteps(ratio);
  if (steps >= mostSizes) {
    return { kind: "refused", found: "too many sizes", expected: `at most ${mostSizes} sizes` };
  }
  return { kind: "sizes", sizes: Array.from({ length: steps + 1 }, (_, step) => sizeAt(from, by, step)) };
}

/** Steps that fit, a step short of the end by rounding alone counted whole. */
function wholeSteps(ratio: number): number {
  const nearest = Math.round(ratio);
  return Math.abs(ratio - nearest) < 1e-6 ? nearest : Math.floor(ratio);
}

/** Exact sizes are reckoned in decimals of the unit they were typed in, so that 8.5 + 3 × 0.1 is 8.8 and nothing near it. */
function sizeAt(from: Known, by: Known, step: number): Quantity {
  if (step === 0) {
    return from;
  }
  const unit = from.typed?.unit ?? usualUnit(from.dimension)?.word;
  if (unit === undefined || !isExact(from) || !isExact(by)) {
    return add(from, scale(by, step));
  }
  const value = Math.round((valueIn(from, unit) + step * valueIn(by, unit)) * finest) / finest;
  const text = `${value}`;
  return text.includes("e") ? exact(value, unit) : exact(value, unit, text);
}

const finest = 1e9;
