/**
 * Roots, powers, trigonometry, choices and rounding of quantities, each carried to first order by its derivative (JCGM 100:2008,
 * 5.1.2). Where the derivative does not exist the result is Unknown, or cautious where the comment says so.
 */
import { add, divide, known, mismatch, plain, standardUncertainty, unknown } from "./arithmetic.ts";
import {
  enclosedArcTangent2,
  enclosedBy,
  enclosedCosine,
  enclosedGreater,
  enclosedHypotenuse,
  enclosedLesser,
  enclosedPower,
  enclosedRoundDown,
  enclosedRoundUp,
  enclosedSine,
  enclosedTangent,
  enclosureOf,
} from "./enclosure.ts";
import { combine, merge, noInfluences, scaled } from "./influences.ts";
import type { Dimension, Enclosure, Known, Quantity } from "./quantity.ts";
import { dimensionName, dimensionOf, sameDimension } from "./units.ts";

/** Square root. Unknown below zero, at an uncertain zero, and of a dimension without a root (a length). */
export function squareRoot(q: Quantity): Quantity {
  return power(q, 0.5);
}

/** `q` to the power `n`. Unknown where it is not a real number or has no derivative, or no unit comes of it. */
export function power(q: Quantity, n: number): Quantity {
  if (q.kind === "unknown") return q;
  const dimension = powerOf(q.dimension, n);
  if (dimension === undefined) return unknown(`a ${dimensionName(q.dimension)} to the power ${n} has no unit`);
  if (q.value < 0 && !Number.isInteger(n)) return unknown("the root of a value below zero");
  if (q.value === 0 && n < 0) return unknown("division by zero");
  if (n === 0) return known(1, dimension, noInfluences);
  const value = realPower(q.value, n);
  const enclosure = enclosedPower(enclosureOf(q), n);
  if (q.influences.length === 0) return known(value, dimension, noInfluences, enclosure);
  if (q.value !== 0) return known(value, dimension, scaled(q.influences, (n * value) / q.value), enclosure);
  if (n < 1) return unknown("the root of a value that may be below zero");
  return known(0, dimension, scaled(q.influences, n === 1 ? 1 : 0), enclosure);
}

/**
 * `√(a² + b²)`. Where both are 0 and uncertain it has no derivative; each reading then counts with the root of its squared
 * sensitivities, so that the variance is the sum of theirs.
 */
export function hypotenuse(a: Quantity, b: Quantity): Quantity {
  if (a.kind === "unknown") return a;
  if (b.kind === "unknown") return b;
  if (!sameDimension(a.dimension, b.dimension)) return mismatch(a, b, "taken together");
  const value = lengthOf(a.value, b.value);
  const influences =
    value === 0
      ? merge(a.influences, b.influences, lengthOf)
      : combine(a.influences, a.value / value, b.influences, b.value / value);
  return known(value, a.dimension, influences, enclosedHypotenuse(enclosureOf(a), enclosureOf(b)));
}

/** Sine of an angle; a plain number is refused. Exact at multiples of 30 deg. */
export function sine(q: Quantity): Quantity {
  return ofAngle(q, "sine", sineOf, (angle) => cosineOf(angle) * radiansInDegree, enclosedSine);
}

/** Cosine of an angle; a plain number is refused. */
export function cosine(q: Quantity): Quantity {
  return ofAngle(q, "cosine", cosineOf, (angle) => -sineOf(angle) * radiansInDegree, enclosedCosine);
}

/** Tangent of an angle; Unknown at 90 deg and its like, where it has no bound. */
export function tangent(q: Quantity): Quantity {
  if (q.kind === "known" && isAngle(q) && cosineOf(q.value) === 0) {
    return unknown("the tangent of a right angle has no bound");
  }
  return ofAngle(q, "tangent", tangentOf, (angle) => (1 + tangentOf(angle) ** 2) * radiansInDegree, enclosedTangent);
}

/** Angle in deg, above -180 and up to 180, of the point (x, y). Unknown where both are 0. */
export function arcTangent2(y: Quantity, x: Quantity): Quantity {
  if (y.kind === "unknown") return y;
  if (x.kind === "unknown") return x;
  if (!sameDimension(y.dimension, x.dimension)) return mismatch(y, x, "taken together");
  const radius = lengthOf(y.value, x.value);
  if (radius === 0) return unknown("a point at the origin has no direction");
  // One division at a time, so that a short radius does not vanish when squared.
  const byY = x.value / radius / radius / radiansInDegree;
  const byX = -y.value / radius / radius / radiansInDegree;
  const angle = Math.atan2(y.value, x.value) / radiansInDegree;
  const enclosure = enclosedArcTangent2(enclosureOf(y), enclosureOf(x));
  return known(angle, dimensionOf("angle"), combine(y.influences, byY, x.influences, byX), enclosure);
}

/** The least of the values, with the uncertainty of the one that is chosen; at a tie the less certain one. */
export function minimum(list: readonly Quantity[]): Quantity {
  return choose(list, (candidate, best) => candidate.value < best.value, enclosedLesser);
}

/** The greatest of the values; otherwise as `minimum`. */
export function maximum(list: readonly Quantity[]): Quantity {
  return choose(list, (candidate, best) => candidate.value > best.value, enclosedGreater);
}

/** Arithmetic mean; Unknown of an empty list. */
export function mean(list: readonly Quantity[]): Quantity {
  const [first, ...rest] = list;
  if (first === undefined) return unknown("nothing to take the mean of");
  return divide(rest.reduce(add, first), plain(list.length));
}

/**
 * The least multiple of `step` that is not below `q`. The result is a decision, made on the value as it stands: it is exact, and
 * whether the decision holds is asked of `q` itself. A multiple within a thousand-millionth is that multiple.
 */
export function roundUp(q: Quantity, step: Quantity): Quantity {
  return roundBy(q, step, Math.ceil, enclosedRoundUp);
}

/** The greatest multiple of `step` that is not above `q`; otherwise as `roundUp`. */
export function roundDown(q: Quantity, step: Quantity): Quantity {
  return roundBy(q, step, Math.floor, enclosedRoundDown);
}

type EnclosedOfTwo = (a: Enclosure, b: Enclosure) => Enclosure;

const radiansInDegree = Math.PI / 180;

function choose(
  list: readonly Quantity[],
  better: (candidate: Known, best: Known) => boolean,
  enclosed: EnclosedOfTwo,
): Quantity {
  const [first, ...rest] = list;
  if (first === undefined) return unknown("nothing to choose from");
  if (first.kind === "unknown") return first;
  let best = first;
  let enclosure = enclosureOf(first);
  for (const candidate of rest) {
    if (candidate.kind === "unknown") return candidate;
    enclosure = enclosed(enclosure, enclosureOf(candidate));
    if (!sameDimension(candidate.dimension, best.dimension)) return mismatch(best, candidate, "compared");
    const lessCertain = candidate.value === best.value && standardUncertainty(candidate) > standardUncertainty(best);
    if (lessCertain || better(candidate, best)) best = candidate;
  }
  return enclosedBy(best, enclosure);
}

function roundBy(q: Quantity, step: Quantity, towards: (steps: number) => number, enclosed: EnclosedOfTwo): Quantity {
  if (q.kind === "unknown") return q;
  if (step.kind === "unknown") return step;
  if (!sameDimension(q.dimension, step.dimension)) return mismatch(q, step, "rounded");
  if (step.value <= 0) return unknown("a step must be above zero");
  const steps = q.value / step.value;
  const nearest = Math.round(steps);
  const whole = Math.abs(steps - nearest) <= 1e-9 * Math.max(1, Math.abs(steps)) ? nearest : towards(steps);
  const enclosure = enclosed(enclosureOf(q), enclosureOf(step));
  return known(whole * step.value, q.dimension, noInfluences, enclosure);
}

function ofAngle(
  q: Quantity,
  name: string,
  value: (angle: number) => number,
  derivative: (angle: number) => number,
  enclosed: (angle: Enclosure) => Enclosure,
): Quantity {
  if (q.kind === "unknown") return q;
  if (!isAngle(q)) return unknown(`${name} needs an angle, not a ${dimensionName(q.dimension)}`);
  const influences = scaled(q.influences, derivative(q.value));
  return known(value(q.value), dimensionOf("share"), influences, enclosed(enclosureOf(q)));
}

function isAngle(q: Known): boolean {
  return sameDimension(q.dimension, dimensionOf("angle"));
}

/** Reduced in degrees, where whole turns are exact, so that 180 deg gives 0 and 30 deg gives 0.5. */
function sineOf(angle: number): number {
  const turned = angle % 360;
  if (turned < 0) return -sineOf(-turned);
  if (turned >= 180) return -sineOf(turned - 180);
  const sharp = turned > 90 ? 180 - turned : turned;
  if (sharp === 30) return 0.5;
  return sharp <= 45 ? Math.sin(sharp * radiansInDegree) : Math.cos((90 - sharp) * radiansInDegree);
}

function cosineOf(angle: number): number {
  return sineOf(90 - Math.abs(angle % 360));
}

function tangentOf(angle: number): number {
  return sineOf(angle) / cosineOf(angle);
}

/** Scaled by the larger, so that nothing vanishes when squared; the same in every engine, which `Math.hypot` is not. */
function lengthOf(a: number, b: number): number {
  const larger = Math.max(Math.abs(a), Math.abs(b));
  return larger === 0 ? 0 : larger * Math.sqrt((a / larger) ** 2 + (b / larger) ** 2);
}

/** Whole powers by multiplication and the root by `Math.sqrt`: the same digits in every engine, which `**` does not promise. */
function realPower(base: number, n: number): number {
  if (n === 0.5) return Math.sqrt(base);
  if (!Number.isInteger(n) || Math.abs(n) > 64) return base ** n;
  let product = 1;
  for (let i = 0; i < Math.abs(n); i++) product *= base;
  return n < 0 ? 1 / product : product;
}

/** Undefined where an exponent would not be whole, or absurd. */
function powerOf(dimension: Dimension, n: number): Dimension | undefined {
  const raised = (exponent: number) => exponent * n + 0;
  const result: Dimension = {
    length: raised(dimension.length),
    mass: raised(dimension.mass),
    time: raised(dimension.time),
    angle: raised(dimension.angle),
    turn: raised(dimension.turn),
    attenuation: raised(dimension.attenuation),
  };
  return Object.values(result).every(isExponent) ? result : undefined;
}

function isExponent(exponent: number): boolean {
  return Number.isInteger(exponent) && Math.abs(exponent) <= 1000;
}
