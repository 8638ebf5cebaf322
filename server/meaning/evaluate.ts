/**
 * Expressions to quantities: names, landmarks, views and functions, with every typed ± as one reading of its own. A mistake is
 * told where it is made and its value is unknown from there on; what a value should be is asked in `read.ts`.
 */
import { nearest } from "../../grammar/nearest.ts";
import type { Binary, Expression, Item, QuantityItem, Reading, Span, Word } from "../../grammar/tree.ts";
import {
  add,
  divide,
  exact,
  measured,
  multiply,
  negate,
  plain,
  subtract,
  unknown,
  valueIn,
} from "../quantity/arithmetic.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { dimensionOf, sameDimension } from "../quantity/units.ts";
import { inWords } from "./dimension-words.ts";
import { type Applied, applyFunction } from "./functions.ts";
import { lookUp, type NamedEntry, type Names, type Scope, type ViewEntry, visibleNames } from "./names.ts";
import { changeTo, type ProblemList } from "./problems.ts";
import { clauseOf, firstItem } from "./slots.ts";

/** What evaluating needs to know of the document around an expression. */
export interface Evaluation {
  readonly file: string;
  readonly problems: ProblemList;
  readonly names: Names;
  /** The landmark that lies at level 0 when it is not given: the knee joint, unless the bone is another than the tibia. */
  readonly atEntry: string | undefined;
  /** Names that stand in lines which could not be understood: they may well be given there. */
  readonly mentioned: ReadonlySet<string>;
  /** How deep in names and expressions the value being worked out now lies. */
  readonly depth: { now: number; overrun: boolean };
  /** Names used and never given, once each, with the first place of use. */
  readonly missing: Map<string, MissingName>;
  /** Names that were told as resting on themselves. */
  readonly circles: Set<string>;
  /** Set in a simulation: each reading is drawn from its distribution instead of being taken with its uncertainty. */
  readonly draw: Draw | undefined;
  /** Every use of a name that is never given. */
  readonly strays: { readonly kind: MissingName["kind"]; readonly word: Word }[];
}

/** A value for one reading, in the unit it was typed in; the same reading must get the same value all through one reading of a plan. */
export type Draw = (reading: { readonly id: string }, value: number, standardUncertainty: number) => number;

export interface MissingName {
  readonly kind: "value" | "view";
  readonly word: Word;
  readonly near: string | undefined;
}

/** Where an expression stands: the names it can see, and how a budget calls its readings. */
interface Around {
  readonly scope: Scope;
  readonly label: string;
  /** Set when more than one typed ± stands in the expression, so that the labels must differ. */
  readonly several: boolean;
}

/**
 * The value of `item`. Unknown, with its reason told once, when it cannot be had; silently unknown when the text itself already
 * has a problem there.
 */
export function evaluate(evaluation: Evaluation, item: Item, scope: Scope, label: string): Quantity {
  if (!isExpression(item)) {
    return unknown(`${label} could not be read`);
  }
  return workOut(evaluation, item, { scope, label, several: uncertainLiterals(item) > 1 });
}

/** The value of a `let` or a landmark, reckoned once. */
export function valueOfName(evaluation: Evaluation, entry: NamedEntry): Quantity {
  if (entry.value !== undefined && entry.value !== "asked") {
    return entry.value;
  }
  const { name } = entry.word;
  entry.value = "asked";
  const value =
    entry.item === undefined ? unknown(`${name} has no value`) : evaluate(evaluation, entry.item, entry.scope, name);
  entry.value = value;
  return value;
}

/** Seen size over true size of a view's marker, reckoned once; exactly 1 for a view in true size. */
export function magnificationOf(evaluation: Evaluation, view: ViewEntry): Quantity {
  if (view.magnification !== undefined && view.magnification !== "asked") {
    return view.magnification;
  }
  view.magnification = "asked";
  const value = reckonMagnification(evaluation, view);
  view.magnification = value;
  return value;
}

/** Every view an expression was read on, also through the names in it; each once. */
export function viewsIn(item: Item | undefined, scope: Scope): readonly string[] {
  const views = new Set<string>();
  const seen = new Set<NamedEntry>();
  const waiting: { readonly part: Item; readonly at: Scope }[] = item === undefined ? [] : [{ part: item, at: scope }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    for (const part of allParts(next.part)) {
      if (part.kind === "reading") {
        views.add(part.view.name);
      }
    }
    for (const entry of namesIn(next.part, next.at)) {
      if (entry.item !== undefined && !seen.has(entry)) {
        seen.add(entry);
        waiting.push({ part: entry.item, at: entry.scope });
      }
    }
  }
  return [...views];
}

/** The values and landmarks an item names itself. */
export function namesIn(item: Item | undefined, scope: Scope): readonly NamedEntry[] {
  const parts = item === undefined ? [] : allParts(item);
  return parts.flatMap((part) => (part.kind === "word" ? (lookUp(scope, part.name) ?? []) : []));
}

function allParts(item: Item): readonly Item[] {
  return [item, ...partsOf(item).flatMap(allParts)];
}

/** The expressions directly inside an item. */
export function partsOf(item: Item): readonly Expression[] {
  switch (item.kind) {
    case "call":
      return item.arguments;
    case "group":
    case "negated":
      return [item.inner];
    case "binary":
      return [item.left, item.right];
    case "reading":
      return [item.value];
    case "range":
      return item.by === undefined ? [item.from, item.to] : [item.from, item.to, item.by];
    default:
      return [];
  }
}

function isExpression(item: Item): item is Expression {
  return !["range", "text", "code", "date", "equals", "broken"].includes(item.kind);
}

function uncertainLiterals(item: Item): number {
  const own = item.kind === "quantity" && item.plusMinus !== undefined ? 1 : 0;
  return partsOf(item).reduce((count, part) => count + uncertainLiterals(part), own);
}

/** Nested parts of expressions, those of the names in them included; only a circle of hundreds of names has more. */
const deepest = 1_000;
const restsOnTooMany = "a value that rests on too many others";

function workOut(evaluation: Evaluation, item: Expression, around: Around): Quantity {
  if (evaluation.depth.now >= deepest) {
    if (evaluation.depth.overrun) {
      return unknown(restsOnTooMany);
    }
    evaluation.depth.overrun = true;
    const expected = [`at most ${deepest} levels`];
    return settle(evaluation, item.span, [], {
      problem: "too-deep",
      found: "a value that rests on too many",
      expected,
    });
  }
  evaluation.depth.now += 1;
  const value = workOutPart(evaluation, item, around);
  evaluation.depth.now -= 1;
  return value;
}

function workOutPart(evaluation: Evaluation, item: Expression, around: Around): Quantity {
  switch (item.kind) {
    case "quantity":
      return literal(evaluation, item, around);
    case "word":
      return named(evaluation, item, around);
    case "group":
      return workOut(evaluation, item.inner, around);
    case "negated":
      return negate(workOut(evaluation, item.inner, around));
    case "binary":
      return binary(evaluation, item, around);
    case "reading":
      return reading(evaluation, item, around);
    case "call": {
      const values = item.arguments.map((argument) => workOut(evaluation, argument, around));
      return settle(evaluation, item.span, values, applyFunction(item, values));
    }
  }
}

function literal(evaluation: Evaluation, item: QuantityItem, around: Around): Quantity {
  const spoilt = evaluation.problems.spoiling(item.span);
  if (spoilt !== undefined) {
    return unknown(`${around.label} could not be read`);
  }
  const unit = item.unit?.unit ?? "1";
  if (item.plusMinus === undefined) {
    return item.unit === undefined ? plain(item.number.value) : exact(item.number.value, unit, item.number.text);
  }
  const plusMinusUnit = item.plusMinusUnit?.unit ?? unit;
  const spread = exact(item.plusMinus.value, plusMinusUnit);
  const value = exact(item.number.value, unit, item.number.text);
  if (spread.kind === "unknown" || value.kind === "unknown") {
    return settle(evaluation, item.span, [], spread.kind === "unknown" ? spread : value);
  }
  if (!sameDimension(spread.dimension, value.dimension)) {
    const [found, expected] = [inWords(spread.dimension), inWords(value.dimension)];
    return settle(evaluation, item.span, [], { problem: "unit-mismatch", found, expected: [expected] });
  }
  if (spread.value === 0) {
    return value;
  }
  const id = `${evaluation.file}:${item.span.start}`;
  if (evaluation.draw !== undefined) {
    const drawn = evaluation.draw({ id }, item.number.value, valueIn(spread, unit) / 2);
    return settle(evaluation, item.span, [], exact(drawn, unit));
  }
  const label = around.several ? `${around.label} (${item.number.text}${item.unit ? ` ${unit}` : ""})` : around.label;
  return settle(evaluation, item.span, [], measured(item.number.value, valueIn(spread, unit), unit, { id, label }));
}

function named(evaluation: Evaluation, word: Word, around: Around): Quantity {
  const entry = lookUp(around.scope, word.name);
  if (entry !== undefined) {
    entry.uses.push(word.span);
    if (entry.value !== "asked") {
      return valueOfName(evaluation, entry);
    }
    return circle(evaluation, word);
  }
  if (word.name === evaluation.atEntry) {
    return exact(0, "mm");
  }
  return missingName(evaluation, "value", word, visibleNames(around.scope));
}

function reading(evaluation: Evaluation, item: Reading, around: Around): Quantity {
  const value = workOut(evaluation, item.value, around);
  const view = evaluation.names.views.get(item.view.name);
  if (view === undefined) {
    return missingName(evaluation, "view", item.view, evaluation.names.views.keys());
  }
  view.uses.push(item.view.span);
  if (value.kind === "unknown") {
    return value;
  }
  if (!isLength(value)) {
    const found = inWords(value.dimension);
    return settle(evaluation, item.value.span, [], { problem: "unit-mismatch", found, expected: ["a length"] });
  }
  if (view.magnification === "asked") {
    return circle(evaluation, item.view);
  }
  const magnification = magnificationOf(evaluation, view);
  if (magnification.kind === "unknown" || isTrueSize(view)) {
    return magnification.kind === "unknown" ? magnification : value;
  }
  if (magnification.value <= 0) {
    return unknown(`the magnification of ${item.view.name} is not above 0`);
  }
  return divide(value, magnification);
}

function reckonMagnification(evaluation: Evaluation, view: ViewEntry): Quantity {
  if (isTrueSize(view)) {
    return plain(1);
  }
  const { name } = view.word;
  const [marker, seen] = (["marker", "seen"] as const).map((word) => {
    const clause = clauseOf(view.statement, word);
    const item = clause === undefined ? undefined : firstItem(clause);
    const label = word === "seen" ? `marker seen on ${name}` : `marker on ${name}`;
    return item === undefined ? undefined : lengthOf(evaluation, item, view.scope, label);
  });
  view.marker = marker;
  view.seen = seen;
  if (marker === undefined) {
    return unknown(`the marker of view ${name} is not given`);
  }
  if (seen === undefined) {
    return unknown(`the marker's size on view ${name} is not given`);
  }
  if (marker.kind === "known" && marker.value === 0) {
    return unknown(`the marker of view ${name} has no size`);
  }
  return divide(seen, marker);
}

/** A length, or unknown with the mismatch told. */
function lengthOf(evaluation: Evaluation, item: Item, scope: Scope, label: string): Quantity {
  const value = evaluate(evaluation, item, scope, label);
  if (value.kind === "unknown" || isLength(value)) {
    return value;
  }
  const found = inWords(value.dimension);
  return settle(evaluation, item.span, [], { problem: "unit-mismatch", found, expected: ["a length"] });
}

export function isTrueSize(view: ViewEntry): boolean {
  return clauseOf(view.statement, "true-size") !== undefined;
}

function binary(evaluation: Evaluation, item: Binary, around: Around): Quantity {
  const left = workOut(evaluation, item.left, around);
  const right = workOut(evaluation, item.right, around);
  if (left.kind === "unknown" || right.kind === "unknown") {
    return left.kind === "unknown" ? left : right;
  }
  return settle(evaluation, item.span, [left, right], operate(item, left, right));
}

function operate(item: Binary, left: Known, right: Known): Quantity | Applied {
  if ((item.operator === "+" || item.operator === "-") && !sameDimension(left.dimension, right.dimension)) {
    const expected = inWords(left.dimension);
    return { problem: "unit-mismatch", found: inWords(right.dimension), expected: [expected] };
  }
  switch (item.operator) {
    case "+":
      return add(left, right);
    case "-":
      return subtract(left, right);
    case "*":
      return multiply(left, right);
    case "/":
      return divide(left, right);
  }
}

/** Tells what went wrong in one operation over known values; unknown ones were told before. */
function settle(
  evaluation: Evaluation,
  span: Span,
  values: readonly Quantity[],
  outcome: Quantity | Applied,
): Quantity {
  const before = values.find((value) => value.kind === "unknown");
  if (before !== undefined) {
    return before;
  }
  if ("problem" in outcome) {
    const { problem, found, expected, near } = outcome;
    const repairs = near === undefined ? undefined : [changeTo(outcome.span ?? span, found, near)];
    evaluation.problems.add({
      slug: problem,
      span: outcome.span ?? span,
      found,
      ...(expected === undefined ? {} : { expected }),
      ...(near === undefined ? {} : { near }),
      ...(repairs === undefined ? {} : { repairs }),
    });
    return unknown(`${found} stands where ${expected?.join(" or ") ?? "something else"} is expected`);
  }
  if (outcome.kind === "unknown") {
    evaluation.problems.add({
      slug: "unreadable",
      span,
      found: outcome.because,
      expected: ["an expression with a value"],
    });
  }
  return outcome;
}

/** One circle may be met on several ways round; it is told for the name that closes it first. */
function circle(evaluation: Evaluation, word: Word): Quantity {
  if (evaluation.circles.has(word.name)) {
    return unknown(`${word.name} is used in its own definition`);
  }
  evaluation.circles.add(word.name);
  evaluation.problems.add({ slug: "name-unknown", span: word.span, found: word.name, inside: "its own definition" });
  return unknown(`${word.name} is used in its own definition`);
}

function missingName(evaluation: Evaluation, kind: MissingName["kind"], word: Word, known: Iterable<string>): Quantity {
  const because = kind === "view" ? `no view ${word.name} is described` : `no value ${word.name} is given`;
  evaluation.strays.push({ kind, word });
  const key = `${kind} ${word.name}`;
  const earlier = evaluation.missing.get(key);
  if (evaluation.mentioned.has(word.name) || (earlier !== undefined && earlier.word.span.start <= word.span.start)) {
    return unknown(because);
  }
  evaluation.missing.set(key, { kind, word, near: nearest(word.name, known) });
  return unknown(because);
}

function isLength(value: Known): boolean {
  return sameDimension(value.dimension, dimensionOf("length"));
}
