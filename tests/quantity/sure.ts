/** Small doors for the tests of quantities: the known value or a failing test, readings with names, numbers read exactly. */
import { measured, valueIn } from "../../server/quantity/arithmetic.ts";
import type { Known, Quantity } from "../../server/quantity/quantity.ts";

/** The quantity as a known one; fails the test with the cause otherwise. */
export function sure(q: Quantity): Known {
  if (q.kind === "known") return q;
  throw new Error(`unknown: ${q.because}`);
}

export function because(q: Quantity): string {
  return q.kind === "unknown" ? q.because : `known: ${q.value}`;
}

export function numberIn(q: Quantity, unit: string): number {
  return valueIn(sure(q), unit);
}

/** A reading of this half-width (k = 2), its label being its id. */
export function reading(id: string, value: number, halfWidth: number, unit = "mm"): Quantity {
  return measured(value, halfWidth, unit, { id, label: id });
}

/** A plain reading by its standard uncertainty. */
export function standard(id: string, value: number, standardUncertainty: number, unit = "1"): Quantity {
  return reading(id, value, 2 * standardUncertainty, unit);
}

export function relativeError(found: number, expected: number): number {
  return Math.abs(found - expected) / Math.max(Math.abs(expected), Number.MIN_VALUE);
}
