/**
 * How likely an uncertain value lies beyond a limit, by the normal distribution (JCGM 106:2012, 7), and how well a reading would
 * have to be known to settle it. What follows from a probability is for the findings to say.
 */
import { compare, requireSame } from "./arithmetic.ts";
import { combine, contribution, uncertaintyOf } from "./influences.ts";
import type { Influence, Known, Reading } from "./quantity.ts";

/**
 * Probability that `q` lies above the limit, with the correlation between both. Exact: 1 or 0, and a value equal to the limit
 * (as `compare` has it) is not above. Throws when the dimensions differ.
 */
export function probabilityAbove(q: Known, limit: Known): number {
  const order = compare(q, limit);
  const spread = uncertaintyOf(differenceOf(q, limit));
  if (spread === 0) return order > 0 ? 1 : 0;
  return normalCdf((q.value - limit.value) / spread);
}

/** Probability that `q` lies below the limit; otherwise as `probabilityAbove`. */
export function probabilityBelow(q: Known, limit: Known): number {
  return probabilityAbove(limit, q);
}

/**
 * Distribution function of the standard normal distribution, 0 to 1. Within 3 the power series, beyond it the continued fraction
 * for Mills' ratio (Abramowitz and Stegun 26.2.11 and 26.2.14), which keeps the digits of small probabilities.
 */
export function normalCdf(x: number): number {
  const size = Math.abs(x);
  const tail = size < 3 ? 0.5 - density(size) * seriesTo(size) : density(size) / fractionFrom(size);
  return x < 0 ? tail : 1 - tail;
}

/** What one reading would have to be known to, alone, for the question to be settled. */
export interface Settling {
  readonly reading: Reading;
  /** Half-width (k = 2) as read, in base units of the reading. */
  readonly halfWidth: number;
  /** Half-width at which the probability reaches 95 %; undefined when even an exact reading would not settle it. */
  readonly needed: number | undefined;
}

/**
 * The reading with the largest share in an undecided question and how well it must be known to decide it, all others as they
 * are. Undefined when it is decided already (95 % or more either way) or exact.
 */
export function settling(q: Known, limit: Known): Settling | undefined {
  requireSame(q, limit);
  const influences = differenceOf(q, limit);
  const leading = largestOf(influences);
  if (leading === undefined) return undefined;
  const allowed = Math.abs(q.value - limit.value) / quantile95;
  if (uncertaintyOf(influences) <= allowed) return undefined;
  const others = uncertaintyOf(influences.filter((influence) => influence !== leading));
  const halfWidth = 2 * leading.reading.standardUncertainty;
  if (others >= allowed) return { reading: leading.reading, halfWidth, needed: undefined };
  // The difference of squares as a product, so that nothing cancels.
  const contributed = Math.sqrt((allowed - others) * (allowed + others));
  return { reading: leading.reading, halfWidth, needed: (2 * contributed) / Math.abs(leading.sensitivity) };
}

/** 95 % of a standard normal distribution lies below it. */
const quantile95 = 1.6448536269514722;

function differenceOf(a: Known, b: Known): readonly Influence[] {
  return combine(a.influences, 1, b.influences, -1);
}

function largestOf(influences: readonly Influence[]): Influence | undefined {
  let largest: Influence | undefined;
  for (const influence of influences) {
    if (largest === undefined || Math.abs(contribution(influence)) > Math.abs(contribution(largest)))
      largest = influence;
  }
  return largest;
}

function density(x: number): number {
  return Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
}

/** x + x³/3 + x⁵/(3·5) + …, until nothing is added. */
function seriesTo(x: number): number {
  let term = x;
  let sum = x;
  for (let odd = 3; term > sum * 1e-17; odd += 2) {
    term *= (x * x) / odd;
    sum += term;
  }
  return sum;
}

/** x + 1/(x + 2/(x + 3/(x + …))), from the 100th level outwards: exact to a double from 3 on. */
function fractionFrom(x: number): number {
  let fraction = x;
  for (let level = 100; level > 0; level--) fraction = x + level / fraction;
  return fraction;
}
