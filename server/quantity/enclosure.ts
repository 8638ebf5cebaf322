/**
 * The second way every number is computed: beside each value two doubles between which the result of the same computation on the
 * same doubles lies when nothing is rounded, and the question whether the value can be trusted by them. No code is shared with the
 * values' own arithmetic. Uncertainties are not enclosed; the next double up and down is in `outward.ts`.
 */
import {
  above,
  below,
  cosineNear,
  directionNear,
  productIsExact,
  quotientIsExact,
  rootIsExact,
  sineNear,
  sumIsExact,
  tangentNear,
} from "./outward.ts";
import type { Enclosure, Known, Quantity } from "./quantity.ts";

/**
 * The quantity, or Unknown in its place when its two ways disagree or rounding could change it (see `whyWithheld`).
 */
export function trusted(q: Quantity): Quantity {
  if (q.kind === "unknown" || q.enclosure === undefined) return q;
  const because = whyWithheld(q.value, q.enclosure);
  return because === undefined ? q : { kind: "unknown", because };
}

/**
 * Why a value is not to be shown; undefined when it may be: it lies within its enclosure, and that is narrow.
 *
 * The width allowed is that by which `compare` tells two values apart, a thousand-millionth of the value or of a base unit: no
 * decision and no printed digit hangs on less, and a wider one means that rounding alone could turn a decision. Some hundred
 * operations on doubles stay a hundred thousand times below it; only the difference of nearly equal numbers, or a division by
 * one, comes near.
 */
export function whyWithheld(value: number, { low, high }: Enclosure): string | undefined {
  if (!(low <= value && value <= high)) return "two ways of computing it disagree";
  if (high - low <= widthAllowed * Math.max(1, Math.abs(value))) return undefined;
  return "nearly equal numbers cancel in it, and rounding alone could change it";
}

/** The value itself where nothing was rounded, or nothing is said. */
export function enclosureOf(q: Known): Enclosure {
  return q.enclosure ?? { low: q.value, high: q.value };
}

export function pointAt(value: number): Enclosure {
  return { low: value, high: value };
}

/** The same quantity with an enclosure that was made elsewhere. */
export function enclosedBy(q: Known, enclosure: Enclosure): Known {
  const own = enclosureOf(q);
  return own.low === enclosure.low && own.high === enclosure.high ? q : { ...q, enclosure };
}

/** Holds 0 too where terms cancel but for noise: a sum below 2⁻⁴⁸ of its terms is agreed to be 0. */
export function enclosedSum(a: Enclosure, b: Enclosure): Enclosure {
  const { low, high } = between(sumDown(a.low, b.low), sumUp(a.high, b.high));
  const least = low > 0 ? low : high < 0 ? -high : 0;
  if (least > noise * (largest(a) + largest(b))) return { low, high };
  return { low: Math.min(low, 0), high: Math.max(high, 0) };
}

export function enclosedDifference(a: Enclosure, b: Enclosure): Enclosure {
  return enclosedSum(a, negated(b));
}

export function enclosedProduct(a: Enclosure, b: Enclosure): Enclosure {
  if (a.low >= 0 && b.low >= 0) return between(productDown(a.low, b.low), productUp(a.high, b.high));
  return between(
    Math.min(
      productDown(a.low, b.low),
      productDown(a.low, b.high),
      productDown(a.high, b.low),
      productDown(a.high, b.high),
    ),
    Math.max(productUp(a.low, b.low), productUp(a.low, b.high), productUp(a.high, b.low), productUp(a.high, b.high)),
  );
}

/** Everything where the divisor may be 0. */
export function enclosedQuotient(a: Enclosure, b: Enclosure): Enclosure {
  if (b.low <= 0 && b.high >= 0) return everything;
  return between(
    Math.min(
      quotientDown(a.low, b.low),
      quotientDown(a.low, b.high),
      quotientDown(a.high, b.low),
      quotientDown(a.high, b.high),
    ),
    Math.max(
      quotientUp(a.low, b.low),
      quotientUp(a.low, b.high),
      quotientUp(a.high, b.low),
      quotientUp(a.high, b.high),
    ),
  );
}

export function enclosedMagnitude(a: Enclosure): Enclosure {
  if (a.low >= 0) return a;
  return a.high <= 0 ? negated(a) : between(0, largest(a));
}

/** The smaller of the two; everything where nothing is known of one, which may not even exist. */
export function enclosedLesser(a: Enclosure, b: Enclosure): Enclosure {
  return between(Math.min(a.low, b.low), Math.min(a.high, b.high));
}

/** The greater of the two; otherwise as the smaller. */
export function enclosedGreater(a: Enclosure, b: Enclosure): Enclosure {
  return between(Math.max(a.low, b.low), Math.max(a.high, b.high));
}

/** `a` to the power `n`. Where `a` may be below 0 and the power is not whole, the part from 0 on counts. */
export function enclosedPower(a: Enclosure, n: number): Enclosure {
  if (n === 0.5) return enclosedRoot(a);
  if (!Number.isInteger(n) || Math.abs(n) > 64) return enclosedByLibrary(a, n);
  let product = pointAt(1);
  for (let i = 0; i < Math.abs(n); i++) product = enclosedProduct(product, a);
  return n < 0 ? enclosedQuotient(pointAt(1), product) : product;
}

/** √(a² + b²). */
export function enclosedHypotenuse(a: Enclosure, b: Enclosure): Enclosure {
  const [first, second] = [enclosedMagnitude(a), enclosedMagnitude(b)];
  const squares = enclosedSum(enclosedProduct(first, first), enclosedProduct(second, second));
  // The value is scaled by the larger of the two first, which costs it some units in the last place.
  const { low, high } = enclosedRoot(squares);
  return { low: Math.max(0, widenedDown(low)), high: widenedUp(high) };
}

/** Sine of degrees. Between two turning points it only rises or falls. */
export function enclosedSine(a: Enclosure): Enclosure {
  return wave(a, sineNear, cosineNear);
}

/** Cosine of degrees. */
export function enclosedCosine(a: Enclosure): Enclosure {
  return wave(a, cosineNear, sineNear);
}

/** Tangent of degrees; everything where a right angle may lie inside. */
export function enclosedTangent(a: Enclosure): Enclosure {
  if (!(a.high - a.low < 180)) return everything;
  const [low, high] = [tangentNear(a.low), tangentNear(a.high)];
  // It rises from pole to pole, so that falling means a pole.
  return low <= high ? between(widenedDown(low), widenedUp(high)) : everything;
}

/** Angle in deg of the points (x, y); the whole turn where they lie on both sides of ± 180 deg. */
export function enclosedArcTangent2(y: Enclosure, x: Enclosure): Enclosure {
  if (x.low < 0 && y.low < 0 && y.high >= 0) return { low: -180, high: 180 };
  const corners = [
    directionNear(y.low, x.low),
    directionNear(y.low, x.high),
    directionNear(y.high, x.low),
    directionNear(y.high, x.high),
  ];
  return between(widenedDown(Math.min(...corners)), widenedUp(Math.max(...corners)));
}

/** The least multiple of `step` not below `a`, a multiple within a thousand-millionth being that multiple. */
export function enclosedRoundUp(a: Enclosure, step: Enclosure): Enclosure {
  const { low, high } = enclosedQuotient(a, step);
  const whole = between(Math.ceil(low - slack(low) * 1.000001), Math.ceil(high - slack(high) * 0.999999));
  return enclosedProduct(whole, step);
}

/** The greatest multiple of `step` not above `a`. */
export function enclosedRoundDown(a: Enclosure, step: Enclosure): Enclosure {
  return negated(enclosedRoundUp(negated(a), step));
}

/** Nothing is known of the result. */
const everything: Enclosure = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

const widthAllowed = 1e-9;

const noise = 2 ** -48;

/**
 * What the engine's functions are widened by: 16 units in the last place or more. Engines promise nothing for sine, tangent and
 * their like; the libraries they use keep within one unit, and bringing an angle to radians costs a few more, here and in the value.
 */
const spread = 2 ** -48;

/** Beyond 10³⁰⁰, and where an end is no number, nothing is said. */
function between(low: number, high: number): Enclosure {
  return low >= -1e300 && high <= 1e300 ? { low: low + 0, high: high + 0 } : everything;
}

function negated({ low, high }: Enclosure): Enclosure {
  return { low: 0 - high, high: 0 - low };
}

function largest({ low, high }: Enclosure): number {
  return Math.max(Math.abs(low), Math.abs(high));
}

function enclosedRoot({ low, high }: Enclosure): Enclosure {
  const [least, most] = [Math.sqrt(Math.max(0, low)), Math.sqrt(high)];
  return between(
    rootIsExact(Math.max(0, low), least) ? least : below(least),
    rootIsExact(high, most) ? most : above(most),
  );
}

/** Powers the engine is asked for: not whole, or absurdly high. */
function enclosedByLibrary(a: Enclosure, n: number): Enclosure {
  const size = enclosedMagnitude(a);
  const [one, other] = [size.low ** n, size.high ** n];
  const powered = between(widenedDown(Math.min(one, other)), widenedUp(Math.max(one, other)));
  const isOdd = Math.abs(n % 2) === 1;
  if (!isOdd || a.low >= 0) return powered;
  return { low: -powered.high, high: a.high < 0 ? -powered.low : powered.high };
}

/** A sine or cosine, given with the one that has its zeros where this one turns. */
function wave(
  { low, high }: Enclosure,
  near: (degrees: number) => number,
  turning: (degrees: number) => number,
): Enclosure {
  if (!(high - low < 180)) return { low: -1, high: 1 };
  const [first, last] = [near(low), near(high)];
  const turns = low < high && turning(low) * turning(high) <= 0;
  const ends = {
    low: Math.max(-1, widenedDown(Math.min(first, last))),
    high: Math.min(1, widenedUp(Math.max(first, last))),
  };
  if (!turns) return ends;
  return first + last > 0 ? { low: ends.low, high: 1 } : { low: -1, high: ends.high };
}

function slack(steps: number): number {
  return Math.min(0.5, 1e-9 * Math.max(1, Math.abs(steps)));
}

function widenedDown(x: number): number {
  return x - (Math.abs(x) * spread + Number.MIN_VALUE);
}

function widenedUp(x: number): number {
  return x + (Math.abs(x) * spread + Number.MIN_VALUE);
}

function sumDown(x: number, y: number): number {
  const sum = x + y;
  return sumIsExact(x, y, sum) ? sum : below(sum);
}

function sumUp(x: number, y: number): number {
  const sum = x + y;
  return sumIsExact(x, y, sum) ? sum : above(sum);
}

function productDown(x: number, y: number): number {
  const product = x * y;
  return productIsExact(x, y, product) ? product : below(product);
}

function productUp(x: number, y: number): number {
  const product = x * y;
  return productIsExact(x, y, product) ? product : above(product);
}

function quotientDown(x: number, y: number): number {
  const quotient = x / y;
  return quotientIsExact(x, y, quotient) ? quotient : below(quotient);
}

function quotientUp(x: number, y: number): number {
  const quotient = x / y;
  return quotientIsExact(x, y, quotient) ? quotient : above(quotient);
}
