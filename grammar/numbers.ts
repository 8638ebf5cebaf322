/**
 * The one strict reader of numbers, and what is meant by digits that are not a number of this language: a decimal comma, thousands
 * set apart. It never guesses: what is not plainly a number in range is a fault.
 */

export type NumberRead =
  | { readonly kind: "number"; readonly value: number }
  /** Not a number as this language writes them. */
  | { readonly kind: "malformed" }
  /** Too many digits, too large, or too close to zero to be kept apart from it. */
  | { readonly kind: "out-of-range" };

/** How the range is told to the reader. */
export const numberRange = "a number of at most 32 digits, 0 or between 1e-15 and 1e15";

const mostDigits = 32;
const largest = 1e15;
const smallest = 1e-15;
/** Up to this length plain digits are in range whatever they are. */
const shortest = 15;
const plain = /^\d+(?:\.\d+)?$/;
const shape = /^\d+(?:\.\d+)?(?:[eE][+-]?\d+)?$/;

/**
 * Reads `12`, `12.5`, `1e-3`. The value is finite and, when a digit other than 0 is typed, not zero; the bounds keep every integer
 * exact and every later square or cube far from overflow.
 */
export function readNumber(text: string): NumberRead {
  if (text.length <= shortest && plain.test(text)) return { kind: "number", value: Number(text) };
  if (text.length > 2 * mostDigits) return allDigits(text) ? { kind: "out-of-range" } : { kind: "malformed" };
  if (!shape.test(text)) return { kind: "malformed" };
  if (text.replace(/\D/g, "").length > mostDigits) return { kind: "out-of-range" };
  const value = Number(text);
  if (value > largest) return { kind: "out-of-range" };
  const mantissa = text.split(/[eE]/, 1)[0] ?? "";
  if (value < smallest && /[1-9]/.test(mantissa)) return { kind: "out-of-range" };
  return { kind: "number", value };
}

function allDigits(text: string): boolean {
  return shape.test(text);
}

export type OddNumber =
  | { readonly kind: "decimal-comma"; readonly readings: readonly string[] }
  | { readonly kind: "thousands-separator"; readonly readings: readonly string[] }
  | { readonly kind: "malformed" };

const thousands = /^\d{1,3}(?:([.,'’_ \u00a0\u2007\u2009\u202f])\d{3})(?:\1\d{3})*(?:([.,])(\d+))?$/;

/**
 * What digits with separators may mean. `readings` are the numbers that can be meant, as this language writes them; two when
 * a comma before three digits may be either sign.
 */
export function readOddNumber(text: string): OddNumber {
  const grouped = thousands.exec(text);
  if (grouped !== null && grouped[1] !== grouped[2]) {
    const [, separator = "", , decimals] = grouped;
    const whole = text.slice(0, decimals === undefined ? text.length : -decimals.length - 1);
    const plain = whole.split(separator).join("");
    const readings = [decimals === undefined ? plain : `${plain}.${decimals}`];
    if (separator === "," && /^\d+,\d+$/.test(text)) readings.push(text.replace(",", "."));
    return { kind: "thousands-separator", readings };
  }
  if (/^\d+,\d+$/.test(text)) return { kind: "decimal-comma", readings: [text.replace(",", ".")] };
  return { kind: "malformed" };
}
