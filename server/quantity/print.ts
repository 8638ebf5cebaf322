/**
 * How quantities are written, the same on every face: digits by uncertainty, no locale, no exponent, no "-0". What is decided on
 * unrounded values elsewhere is never contradicted by the text; which unit to show is the caller's choice.
 */
import { compare, halfWidthIn, tolerance, valueIn } from "./arithmetic.ts";
import { compareTexts, decimalsFor, fixedText, withoutTrailingZeros } from "./decimal.ts";
import type { Known, Quantity } from "./quantity.ts";
import type { Unit } from "./units.ts";
import { dimensionOf, sameDimension, unit } from "./units.ts";

/**
 * Value and half-width (k = 2) with their unit: `361.7 mm ± 3.1 mm`; exact: `345 mm`. Unknown, and a unit that measures something
 * else, give `unknown`.
 *
 * The half-width has two significant digits and the value ends at the same decimal place (JCGM 100:2008, 7.2.6). An exact value
 * keeps its digits in the unit it was typed in; a computed one has at most as many decimals as the unit allows (0.01 mm,
 * 0.1 deg), or as many as it takes not to read 0 when it is not.
 */
export function print(q: Quantity, unitWord: string): string {
  const shown = shownIn(q, unitWord);
  return shown === undefined ? notKnown : worded(shown);
}

/** As `print`, to the same place, without the ±. */
export function printValue(q: Quantity, unitWord: string): string {
  const shown = shownIn(q, unitWord);
  return shown === undefined ? notKnown : withUnit(shown.value, shown.unit);
}

/**
 * Value and limit side by side, with as many more digits as it takes for the texts to stand as `compare` has the two: above,
 * below, or the same. (JCGM 100:2008, 7.2.6, lets additional digits be kept where rounding would mislead.)
 */
export function printAgainst(
  value: Quantity,
  limit: Quantity,
  unitWord: string,
): { readonly value: string; readonly limit: string } {
  const left = shownIn(value, unitWord);
  const right = shownIn(limit, unitWord);
  if (left === undefined || right === undefined) {
    return { value: print(value, unitWord), limit: print(limit, unitWord) };
  }
  const order = compare(left.of, right.of);
  for (let more = 0; more <= mostMoreDigits; more++) {
    const wider = { value: widened(left.of, left.unit, more), limit: widened(right.of, right.unit, more) };
    if (compareTexts(wider.value.value, wider.limit.value) !== order) continue;
    return { value: worded(wider.value), limit: worded(wider.limit) };
  }
  // Here only values that `compare` calls equal arrive, one of them typed with digits finer than it minds.
  return { value: worded({ ...left, value: right.value }), limit: worded(right) };
}

/** A bare number with at most that many decimals; ties away from zero on the decimal text (see `fixedText`). */
export function printNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value) || !Number.isFinite(decimals)) return notKnown;
  const place = Math.max(-400, Math.min(100, Math.trunc(decimals)));
  return withoutTrailingZeros(fixedText(value, place));
}

/** A probability or a share, 0 to 1, in whole per cent; never 0 % or 100 % for what is neither. */
export function printPercent(share: number): string {
  const text = printNumber(share * 100, 0);
  if (text === "100" && share < 1) return "more than 99 %";
  if (text === "0" && share > 0) return "less than 1 %";
  return text === notKnown ? notKnown : `${text} %`;
}

interface Shown {
  readonly of: Known;
  readonly value: string;
  /** Undefined when exact. */
  readonly halfWidth: string | undefined;
  readonly unit: Unit;
}

const notKnown = "unknown";
/** Finer than a half-width of a millionth of a micrometre nothing is shown. */
const mostDecimals = 12;
/** From the place of the widest half-width, 10¹⁵⁰, to the finest difference in the largest unit, 10⁻¹⁸, and to spare. */
const mostMoreDigits = 200;

function shownIn(q: Quantity, unitWord: string): Shown | undefined {
  const of = unit(unitWord);
  if (of === undefined || q.kind === "unknown" || !sameDimension(q.dimension, dimensionOf(of.dimension)))
    return undefined;
  return widened(q, of, 0);
}

/** Texts of the value and its half-width with `more` digits than the rule gives. */
function widened(q: Known, of: Unit, more: number): Shown {
  const halfWidth = halfWidthIn(q, of.word);
  if (q.influences.length === 0) return { of: q, value: exactText(q, of, more), halfWidth: undefined, unit: of };
  const place = (halfWidth > 0 ? Math.min(mostDecimals, decimalsFor(halfWidth, 2)) : mostDecimals) + more;
  const rounded = fixedText(halfWidth, place);
  const shown = /[1-9]/.test(rounded) ? rounded : leastText(place);
  return { of: q, value: fixedText(valueIn(q, of.word), place), halfWidth: shown, unit: of };
}

function exactText(q: Known, of: Unit, more: number): string {
  if (q.typed?.unit === of.word) return q.typed.text;
  const value = valueIn(q, of.word);
  const text = withoutTrailingZeros(fixedText(value, of.decimals + more));
  if (text !== "0" || Math.abs(q.value) <= tolerance) return text;
  return fixedText(value, decimalsFor(Math.abs(value), 1));
}

/** One unit of the last place, so that a half-width is rounded up rather than away (JCGM 100:2008, 7.2.6). */
function leastText(decimals: number): string {
  return `0.${"1".padStart(decimals, "0")}`;
}

function worded({ value, halfWidth, unit: of }: Shown): string {
  return halfWidth === undefined ? withUnit(value, of) : `${withUnit(value, of)} ± ${withUnit(halfWidth, of)}`;
}

function withUnit(text: string, of: Unit): string {
  if (of.word === "1") return text;
  return `${text} ${text === "1" || text === "-1" ? of.one : of.word}`;
}
