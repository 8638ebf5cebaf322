/**
 * Sensitivities to readings as short sorted arrays: merging two of them with factors, and what follows from them (standard
 * uncertainty, correlation, shares of variance). Values and dimensions are in `arithmetic.ts`.
 */
import type { Influence, Reading } from "./quantity.ts";

/** The array every exact value shares. */
export const noInfluences: readonly Influence[] = Object.freeze([]);

/**
 * A sum smaller than this part of its terms is the rounding noise of doubles (16 units in the last place) and becomes exactly 0,
 * so that `a * b / b - a` is 0 ± 0.
 */
const roundingNoise = 2 ** -48;

/** `x + y`, or exactly 0 where they cancel but for rounding noise. */
export function sumWithoutNoise(x: number, y: number): number {
  const sum = x + y;
  return Math.abs(sum) <= roundingNoise * (Math.abs(x) + Math.abs(y)) ? 0 : sum;
}

/** Sensitivities of a function of two quantities whose partial derivatives to them are `fa` and `fb` (the chain rule). */
export function combine(
  a: readonly Influence[],
  fa: number,
  b: readonly Influence[],
  fb: number,
): readonly Influence[] {
  if (b.length === 0) return scaled(a, fa);
  if (a.length === 0) return scaled(b, fb);
  return merge(a, b, (left, right) => sumWithoutNoise(fa * left, fb * right));
}

/** Each reading's two sensitivities made one by `join`; a reading that one side lacks counts as 0 there. */
export function merge(
  a: readonly Influence[],
  b: readonly Influence[],
  join: (left: number, right: number) => number,
): readonly Influence[] {
  const merged: Influence[] = [];
  let j = 0;
  for (const left of a) {
    let right = b[j];
    while (right !== undefined && right.reading.id < left.reading.id) {
      keep(merged, right.reading, join(0, right.sensitivity));
      right = b[++j];
    }
    const shared = right?.reading.id === left.reading.id ? right : undefined;
    if (shared !== undefined) j++;
    keep(merged, left.reading, join(left.sensitivity, shared?.sensitivity ?? 0));
  }
  for (const right of b.slice(j)) keep(merged, right.reading, join(0, right.sensitivity));
  return merged.length === 0 ? noInfluences : merged;
}

/** The sensitivities times a factor. */
export function scaled(influences: readonly Influence[], factor: number): readonly Influence[] {
  if (factor === 1 || influences.length === 0) return influences;
  const result: Influence[] = [];
  for (const { reading, sensitivity } of influences) keep(result, reading, factor * sensitivity);
  return result.length === 0 ? noInfluences : result;
}

/** Combined standard uncertainty (JCGM 100:2008, equation 10): the root of the sum of squared contributions; 0 when exact. */
export function uncertaintyOf(influences: readonly Influence[]): number {
  let largest = 0;
  for (const influence of influences) largest = Math.max(largest, Math.abs(contribution(influence)));
  if (largest === 0) return 0;
  // Divided by the largest first, so that no square overflows or vanishes.
  let squares = 0;
  for (const influence of influences) squares += (contribution(influence) / largest) ** 2;
  return largest * Math.sqrt(squares);
}

/** Correlation coefficient of two values through the readings they share; 0 when either is exact. */
export function correlationOf(a: readonly Influence[], b: readonly Influence[]): number {
  const ua = uncertaintyOf(a);
  const ub = uncertaintyOf(b);
  // Divided only for a shared reading, and whoever has one has an uncertainty above 0.
  let sum = 0;
  let j = 0;
  for (const left of a) {
    let right = b[j];
    while (right !== undefined && right.reading.id < left.reading.id) right = b[++j];
    if (right?.reading.id !== left.reading.id) continue;
    sum += (contribution(left) / ua) * (contribution(right) / ub);
  }
  return Math.max(-1, Math.min(1, sum));
}

/** Signed change of the value when the reading changes by its standard uncertainty. */
export function contribution(influence: Influence): number {
  return influence.sensitivity * influence.reading.standardUncertainty;
}

/** Leaves out what contributes nothing, also where the product is too small for a double. */
function keep(list: Influence[], reading: Reading, sensitivity: number): void {
  if (sensitivity * reading.standardUncertainty === 0) return;
  list.push({ reading, sensitivity });
}
