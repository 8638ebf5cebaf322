/**
 * Decimal text of doubles: rounding at a decimal place, without exponents, without the noise of binary arithmetic, and comparing
 * two such texts exactly. Units and the choice of the place are in `print.ts`.
 */

/**
 * The number rounded to that many decimals, all of them written; negative decimals round to tens, hundreds, ….
 *
 * Rounding is done on the number's decimal text of 15 significant digits, which every double keeps: a tie goes away from zero, so
 * 1.005 gives 1.01 although its double lies a little below, and a sum such as 0.1 + 0.2 is the 0.3 it stands for. Never "-0".
 */
export function fixedText(value: number, decimals: number): string {
  const { digits, exponent } = significantDigits(Math.abs(value));
  const shift = exponent - (digits.length - 1) + decimals;
  const whole = shift >= 0 ? digits + "0".repeat(shift) : roundedHead(digits, digits.length + shift);
  const text = placed(whole, decimals);
  return value < 0 && /[1-9]/.test(text) ? `-${text}` : text;
}

/** `text` without the zeros that end its decimals. */
export function withoutTrailingZeros(text: string): string {
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** The decimals at which a number above 0 shows `count` significant digits once it is rounded there: 0.0996 and 2 give 2 (0.10). */
export function decimalsFor(value: number, count: number): number {
  const { digits, exponent } = significantDigits(value);
  const carried = roundedHead(digits, count).length > count;
  return count - 1 - exponent - (carried ? 1 : 0);
}

/** Sign of a - b for two texts as `fixedText` writes them. */
export function compareTexts(a: string, b: string): -1 | 0 | 1 {
  const decimals = Math.max(decimalsOf(a), decimalsOf(b));
  const difference = wholeAt(a, decimals) - wholeAt(b, decimals);
  if (difference === 0n) return 0;
  return difference < 0n ? -1 : 1;
}

function decimalsOf(text: string): number {
  const point = text.indexOf(".");
  return point < 0 ? 0 : text.length - point - 1;
}

function wholeAt(text: string, decimals: number): bigint {
  return BigInt(text.replace(".", "") + "0".repeat(decimals - decimalsOf(text)));
}

/** 15 digits d₁d₂… and the exponent of `d₁.d₂… × 10^exponent`. */
function significantDigits(size: number): { readonly digits: string; readonly exponent: number } {
  const text = size.toExponential(14);
  return { digits: text[0] + text.slice(2, 16), exponent: Number(text.slice(17)) };
}

/** The first `count` digits, rounded half up by the next. */
function roundedHead(digits: string, count: number): string {
  if (count < 0) return "0";
  const head = BigInt(`0${digits.slice(0, count)}`);
  return String(digits.charAt(count) >= "5" ? head + 1n : head);
}

function placed(whole: string, decimals: number): string {
  if (decimals <= 0) return String(BigInt(whole + "0".repeat(-decimals)));
  const padded = whole.padStart(decimals + 1, "0");
  const head = String(BigInt(padded.slice(0, -decimals)));
  return `${head}.${padded.slice(-decimals)}`;
}
