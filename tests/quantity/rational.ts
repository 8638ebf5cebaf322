/** Rational numbers of whole numbers of any size: the second, exact path the tests hold doubles and printed texts against. */

export interface Rational {
  readonly over: bigint;
  /** Above 0; not reduced. */
  readonly under: bigint;
}

export function rational(over: bigint, under = 1n): Rational {
  return under < 0n ? { over: -over, under: -under } : { over, under };
}

/** "-12.50" as written. */
export function fromText(text: string): Rational {
  const match = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text);
  if (match === null) throw new Error(`not a plain decimal: ${text}`);
  const [, sign = "", whole = "", decimals = ""] = match;
  return rational(BigInt(`${sign}${whole}${decimals}`), 10n ** BigInt(decimals.length));
}

/** The very value of a double, bit for bit. */
export function fromDouble(value: number): Rational {
  const bits = new DataView(new ArrayBuffer(8));
  bits.setFloat64(0, value);
  const raw = bits.getBigUint64(0);
  const exponent = Number((raw >> 52n) & 0x7ffn);
  const fraction = raw & 0xf_ffff_ffff_ffffn;
  const mantissa = exponent === 0 ? fraction : fraction | (1n << 52n);
  const shift = BigInt(Math.max(exponent, 1) - 1075);
  const signed = value < 0 ? -mantissa : mantissa;
  return shift < 0n ? rational(signed, 1n << -shift) : rational(signed << shift);
}

export function plus(a: Rational, b: Rational): Rational {
  return rational(a.over * b.under + b.over * a.under, a.under * b.under);
}

export function minus(a: Rational, b: Rational): Rational {
  return rational(a.over * b.under - b.over * a.under, a.under * b.under);
}

export function times(a: Rational, b: Rational): Rational {
  return rational(a.over * b.over, a.under * b.under);
}

/** Throws for b = 0. */
export function over(a: Rational, b: Rational): Rational {
  if (b.over === 0n) throw new Error("division by zero");
  return rational(a.over * b.under, a.under * b.over);
}

export function magnitude(a: Rational): Rational {
  return a.over < 0n ? rational(-a.over, a.under) : a;
}

export function order(a: Rational, b: Rational): -1 | 0 | 1 {
  const difference = a.over * b.under - b.over * a.under;
  return difference === 0n ? 0 : difference < 0n ? -1 : 1;
}
