/**
 * Sine and cosine of degrees in whole numbers of 2⁻²⁵⁶, some 70 digits: what trigonometry in doubles is held against. π by Machin's
 * formula, the functions by their power series.
 */
import { type Rational, rational } from "./rational.ts";

const bits = 256n;
const one = 1n << bits;

/** Sine of an angle in degrees, off by less than 2⁻²⁴⁰; 0 where it is smaller than that. */
export function exactSine(degrees: Rational): Rational {
  const turn = 360n * degrees.under;
  const turned = rational(((degrees.over % turn) + turn) % turn, degrees.under);
  const angle = (turned.over * pi) / (180n * turned.under);
  let term = angle;
  let sum = angle;
  for (let n = 1n; term !== 0n; n++) {
    term = (-term * angle * angle) / (one * one * 2n * n * (2n * n + 1n));
    sum += term;
  }
  const size = sum < 0n ? -sum : sum;
  if (size < 1n << (bits - 240n)) return rational(0n);
  // An error must not carry it beyond 1.
  return size > one ? rational(sum / size) : rational(sum, one);
}

/** Cosine of an angle in degrees, off by less than 2⁻²⁴⁰. */
export function exactCosine(degrees: Rational): Rational {
  return exactSine(rational(degrees.over + 90n * degrees.under, degrees.under));
}

const pi = 16n * arcTangentOfOneIn(5n) - 4n * arcTangentOfOneIn(239n);

function arcTangentOfOneIn(n: bigint): bigint {
  let power = one / n;
  let sum = power;
  for (let odd = 3n, sign = -1n; power !== 0n; odd += 2n, sign = -sign) {
    power /= n * n;
    sum += (sign * power) / odd;
  }
  return sum;
}
