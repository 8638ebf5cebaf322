/**
 * Leaves of the tree made from tokens. A quantity that cannot be kept comes with the problem that says why.
 */
import type { IToken } from "chevrotain";
import { readNumber } from "./numbers.ts";
import { numberProblem } from "./oddities.ts";
import type { Problem } from "./problems.ts";
import { readText } from "./texts.ts";
import { spanOf } from "./tokens.ts";
import type { CodeItem, DateItem, NumberItem, QuantityItem, Span, TextItem, UnitItem, Word } from "./tree.ts";
import { unitWords } from "./vocabulary/units.ts";

export function wordOf(token: IToken): Word {
  return { kind: "word", name: token.image, span: spanOf(token) };
}

/** Only texts that are known to be well formed come here. */
export function textOf(token: IToken): TextItem {
  const read = readText(token.image);
  return { kind: "text", value: read.kind === "text" ? read.value : "", source: token.image, span: spanOf(token) };
}

export function codeOf(token: IToken): CodeItem {
  return { kind: "code", text: token.image, span: spanOf(token) };
}

export function dateOf(token: IToken): DateItem {
  return { kind: "date", text: token.image, span: spanOf(token) };
}

/** The tokens of `NUMBER UNIT ± HALF HALFUNIT`. */
export interface QuantityTokens {
  readonly number: IToken;
  readonly unit: IToken | undefined;
  readonly half: IToken | undefined;
  readonly halfUnit: IToken | undefined;
}

export function quantityOf(tokens: QuantityTokens, fault: (problem: Problem) => void): QuantityItem {
  const { number, unit, half, halfUnit } = tokens;
  const own = unit === undefined ? undefined : unitOf(unit);
  const value = numberOf(number, fault);
  if (half === undefined) {
    const span = own === undefined ? value.span : { start: value.span.start, end: own.span.end };
    return { kind: "quantity", number: value, unit: own, plusMinus: undefined, plusMinusUnit: undefined, span };
  }
  const plusMinus = numberOf(half, fault);
  const shared = halfUnit === undefined ? undefined : unitOf(halfUnit);
  const span = { start: value.span.start, end: (shared ?? plusMinus).span.end };
  if (shared === undefined) fault(unitless(span, own));
  return { kind: "quantity", number: value, unit: own ?? shared, plusMinus, plusMinusUnit: shared, span };
}

function numberOf(token: IToken, fault: (problem: Problem) => void): NumberItem {
  const span = spanOf(token);
  const read = readNumber(token.image);
  if (read.kind === "number") return { text: token.image, value: read.value, span };
  fault(numberProblem(token.image, span));
  return { text: token.image, value: 0, span };
}

/** A half-width needs its unit: `10 mm ± 5` leaves open what the 5 is. */
function unitless(span: Span, unit: UnitItem | undefined): Problem {
  const problem: Problem = { slug: "unit-missing", span, expected: ["a unit behind the number after the ±"] };
  if (unit === undefined) return problem;
  const end = { start: span.end, end: span.end };
  return { ...problem, repairs: [{ title: `Add ${unit.text}`, edits: [{ span: end, text: ` ${unit.text}` }] }] };
}

function unitOf(token: IToken): UnitItem {
  return { text: token.image, unit: unitWords.get(token.image)?.unit ?? token.image, span: spanOf(token) };
}
