/**
 * Making quantities, the four operations on them, and the questions asked of one (value in a unit, uncertainty, budget). Units
 * follow, readings keep their correlation, and what cannot be reckoned is Unknown with its first cause; nothing operates on text.
 */
import {
  enclosedBy,
  enclosedDifference,
  enclosedMagnitude,
  enclosedProduct,
  enclosedQuotient,
  enclosedSum,
  enclosureOf,
  pointAt,
} from "./enclosure.ts";
import {
  combine,
  contribution,
  correlationOf,
  noInfluences,
  scaled,
  sumWithoutNoise,
  uncertaintyOf,
} from "./influences.ts";
import type { Dimension, Enclosure, Influence, Known, Quantity, Reading, Unknown } from "./quantity.ts";
import type { DimensionName, Unit } from "./units.ts";
import { dimensionName, dimensionOf, fromBase, sameDimension, toBase, unit, usualUnit } from "./units.ts";

/**
 * An exact value. `typedText` keeps its digits for printing in the same unit, when it is a plain decimal of that very value.
 * Unknown for a number out of range and for a word that is no unit.
 */
export function exact(value: number, unitWord: string, typedText?: string): Quantity {
  const of = unit(unitWord);
  if (of === undefined) return unknown(`there is no unit ${unitWord}`);
  const made = known(toBase(value, of), dimensionOf(of.dimension), noInfluences, enclosedInBase(value, of));
  if (made.kind === "unknown" || typedText === undefined) return made;
  if (!/^-?\d+(\.\d+)?$/.test(typedText) || Number(typedText) !== value) return made;
  const text = value === 0 ? typedText.replace("-", "") : typedText;
  return { ...made, typed: { text, unit: unitWord } };
}

/**
 * A reading with the half-width of its interval of about 95 % (k = 2), both in `unitWord`; exact when the half-width is 0.
 * `id` must be unique to the reading: the same id is the same reading. Unknown for a negative half-width.
 */
export function measured(
  value: number,
  halfWidth: number,
  unitWord: string,
  reading: { readonly id: string; readonly label: string },
): Quantity {
  const of = unit(unitWord);
  if (of === undefined) return unknown(`there is no unit ${unitWord}`);
  if (halfWidth < 0) return unknown("a ± cannot be below zero");
  const standardUncertainty = toBase(halfWidth, of) / 2;
  const made: Reading = { id: reading.id, label: reading.label, standardUncertainty, unit: unitWord };
  const influences = standardUncertainty === 0 ? noInfluences : [{ reading: made, sensitivity: 1 }];
  return known(toBase(value, of), dimensionOf(of.dimension), influences, enclosedInBase(value, of));
}

/** An exact number without a unit. */
export function plain(value: number): Quantity {
  return known(value, dimensionOf("share"), noInfluences);
}

/** An exact value written in the program itself. Throws on a unit or a number that cannot be, so never use it on anything typed. */
export function constant(value: number, unitWord: string): Known {
  const made = exact(value, unitWord);
  if (made.kind === "unknown") throw new RangeError(made.because);
  return made;
}

export function unknown(because: string): Unknown {
  return { kind: "unknown", because };
}

/** Sum; Unknown when the dimensions differ. Terms that cancel but for the rounding of doubles give exactly 0. */
export function add(a: Quantity, b: Quantity): Quantity {
  if (a.kind === "unknown") return a;
  if (b.kind === "unknown") return b;
  if (!sameDimension(a.dimension, b.dimension)) return mismatch(a, b, "added");
  const influences = combine(a.influences, 1, b.influences, 1);
  const enclosure = enclosedSum(enclosureOf(a), enclosureOf(b));
  return known(sumWithoutNoise(a.value, b.value), a.dimension, influences, enclosure);
}

/** `a - b`; Unknown when the dimensions differ. `a - a` is 0 ± 0. */
export function subtract(a: Quantity, b: Quantity): Quantity {
  if (a.kind === "unknown") return a;
  if (b.kind === "unknown") return b;
  if (!sameDimension(a.dimension, b.dimension)) return mismatch(a, b, "subtracted");
  const influences = combine(a.influences, 1, b.influences, -1);
  const enclosure = enclosedDifference(enclosureOf(a), enclosureOf(b));
  return known(sumWithoutNoise(a.value, -b.value), a.dimension, influences, enclosure);
}

export function multiply(a: Quantity, b: Quantity): Quantity {
  if (a.kind === "unknown") return a;
  if (b.kind === "unknown") return b;
  const influences = combine(a.influences, b.value, b.influences, a.value);
  const enclosure = enclosedProduct(enclosureOf(a), enclosureOf(b));
  return known(a.value * b.value, combineDimensions(a.dimension, b.dimension, 1), influences, enclosure);
}

/** `a / b`; Unknown when b is 0. */
export function divide(a: Quantity, b: Quantity): Quantity {
  if (a.kind === "unknown") return a;
  if (b.kind === "unknown") return b;
  if (b.value === 0) return unknown("division by zero");
  const quotient = a.value / b.value;
  const influences = combine(a.influences, 1 / b.value, b.influences, -quotient / b.value);
  const enclosure = enclosedQuotient(enclosureOf(a), enclosureOf(b));
  return known(quotient, combineDimensions(a.dimension, b.dimension, -1), influences, enclosure);
}

export function negate(q: Quantity): Quantity {
  return scale(q, -1);
}

/** Magnitude. At 0 the uncertainty stays as it is. */
export function absolute(q: Quantity): Quantity {
  if (q.kind === "unknown") return q;
  const enclosure = enclosedMagnitude(enclosureOf(q));
  return q.value < 0 ? known(-q.value, q.dimension, scaled(q.influences, -1), enclosure) : enclosedBy(q, enclosure);
}

/** The value times an exact number without a unit. */
export function scale(q: Quantity, factor: number): Quantity {
  if (q.kind === "unknown") return q;
  const enclosure = enclosedProduct(enclosureOf(q), pointAt(factor));
  return known(q.value * factor, q.dimension, scaled(q.influences, factor), enclosure);
}

/** The quantity itself when it has the dimension, else Unknown naming both. For the doors where typed values come in. */
export function ofDimension(q: Quantity, name: DimensionName): Quantity {
  if (q.kind === "unknown" || sameDimension(q.dimension, dimensionOf(name))) return q;
  return unknown(`${article(name)} was expected, not ${article(dimensionName(q.dimension))}`);
}

/** The plain number of this unit in the value. Throws when the unit measures something else: a mistake of the program. */
export function valueIn(q: Known, unitWord: string): number {
  return fromBase(q.value, unitFor(q, unitWord));
}

/** Half-width of the interval of about 95 % (k = 2) in this unit; 0 when exact. Throws as `valueIn` does. */
export function halfWidthIn(q: Known, unitWord: string): number {
  return fromBase(2 * uncertaintyOf(q.influences), unitFor(q, unitWord));
}

/** Combined standard uncertainty in base units; 0 when exact. */
export function standardUncertainty(q: Known): number {
  return uncertaintyOf(q.influences);
}

export function isExact(q: Known): boolean {
  return q.influences.length === 0;
}

/** Each reading's share of the variance, the largest first; they add up to 1. Empty when exact. */
export function shares(q: Known): readonly { readonly reading: Reading; readonly share: number }[] {
  const whole = uncertaintyOf(q.influences);
  return q.influences
    .map((influence) => ({ reading: influence.reading, share: (contribution(influence) / whole) ** 2 }))
    .sort((a, b) => b.share - a.share);
}

/** Covariance through shared readings, in the product of both base units. */
export function covariance(a: Known, b: Known): number {
  return correlation(a, b) * uncertaintyOf(a.influences) * uncertaintyOf(b.influences);
}

/** Correlation coefficient, -1 to 1; 0 when either is exact. */
export function correlation(a: Known, b: Known): number {
  return correlationOf(a.influences, b.influences);
}

/**
 * -1, 0 or 1. Values nearer to each other than a thousand-millionth of the larger, or of a base unit (a millionth of a
 * micrometre), are equal: no reading is that fine, and the rounding of doubles is not a reason to find anything.
 */
export function compare(a: Known, b: Known): -1 | 0 | 1 {
  requireSame(a, b);
  const scaleOfBoth = Math.max(1, Math.abs(a.value), Math.abs(b.value));
  if (Math.abs(a.value - b.value) <= tolerance * scaleOfBoth) return 0;
  return a.value < b.value ? -1 : 1;
}

/** Part of the larger value, or of a base unit, below which two values are the same. */
export const tolerance = 1e-9;

/** Throws when the dimensions differ: a question put to two things that cannot be compared is a mistake of the program. */
export function requireSame(a: Known, b: Known): void {
  if (!sameDimension(a.dimension, b.dimension)) throw new RangeError(mismatch(a, b, "compared").because);
}

/**
 * A value from its parts, kept to the promises of `Known`: never -0, and Unknown when the value, a sensitivity or a contribution
 * lies beyond 1e150, from where squares would no longer be finite. Whoever rounds gives the enclosure too.
 */
export function known(
  value: number,
  dimension: Dimension,
  influences: readonly Influence[],
  enclosure: Enclosure = pointAt(value),
): Quantity {
  if (!inRange(value)) return unknown(outOfRange);
  for (const influence of influences) {
    if (!inRange(influence.sensitivity) || !inRange(contribution(influence))) return unknown(outOfRange);
  }
  const made: Known = { kind: "known", value: value + 0, dimension, influences };
  return enclosure.low === value && enclosure.high === value ? made : { ...made, enclosure };
}

export function mismatch(a: Known, b: Known, verb: string): Unknown {
  const names = `${dimensionName(a.dimension)} and ${dimensionName(b.dimension)}`;
  return unknown(`${unitWordOf(a)} and ${unitWordOf(b)} cannot be ${verb}: ${names}`);
}

const outOfRange = "the number is too large to reckon with";

function inRange(value: number): boolean {
  return Math.abs(value) <= 1e150;
}

/** A number of a unit in base units a second time. */
function enclosedInBase(value: number, { ratio: [over, under] }: Unit): Enclosure {
  return enclosedQuotient(enclosedProduct(pointAt(value), pointAt(over)), pointAt(under));
}

function unitFor(q: Known, unitWord: string): Unit {
  const wanted = unit(unitWord);
  if (wanted !== undefined && sameDimension(dimensionOf(wanted.dimension), q.dimension)) return wanted;
  throw new RangeError(`${dimensionName(q.dimension)} has no value in ${unitWord}`);
}

/** The unit as typed, else the usual one of its dimension, else the dimension's own words. */
function unitWordOf(q: Known): string {
  const word = q.typed?.unit ?? usualUnit(q.dimension)?.word ?? dimensionName(q.dimension);
  return word === "1" ? "a plain number" : word;
}

function article(noun: string): string {
  return /^[aeiou]/.test(noun) ? `an ${noun}` : `a ${noun}`;
}

function combineDimensions(a: Dimension, b: Dimension, sign: 1 | -1): Dimension {
  const share = dimensionOf("share");
  if (b === share) return a;
  if (a === share && sign === 1) return b;
  return {
    length: a.length + sign * b.length,
    mass: a.mass + sign * b.mass,
    time: a.time + sign * b.time,
    angle: a.angle + sign * b.angle,
    turn: a.turn + sign * b.turn,
    attenuation: a.attenuation + sign * b.attenuation,
  };
}
