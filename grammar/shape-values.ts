/**
 * Whether one thing in the text can stand for one part of the vocabulary, and what is plainly wrong with it when it can: no
 * unit, a unit of another dimension, a range without its step. Sums and calls are left to the meaning.
 */
import { nearest } from "./nearest.ts";
import { onceForEach } from "./once.ts";
import type { Problem, Repair } from "./problems.ts";
import {
  changeWord,
  choicesOf,
  described,
  dimensionInWords,
  dimensionOf,
  dimensionsExpected,
  expectedOf,
  insert,
  meant,
  plainNumber,
  replace,
  waysOf,
} from "./shape-words.ts";
import type { Item, QuantityItem, RangeItem, Word } from "./tree.ts";
import type { DimensionName, Part } from "./vocabulary/rule.ts";
import { unitWords } from "./vocabulary/units.ts";

/** Units offered for a number that has none, the usual ones first. */
const usualUnits: ReadonlyMap<DimensionName, readonly string[]> = new Map([
  ["length", ["mm"]],
  ["angle", ["deg"]],
  ["mass", ["kg"]],
  ["time", ["weeks", "months", "years"]],
  ["pressure", ["mmHg"]],
  ["force", ["N"]],
  ["rotation", ["turns"]],
]);

/** True when the item is of the kind that the part asks for; its unit is not looked at. */
export function fits(item: Item, part: Part): boolean {
  switch (part.kind) {
    case "quantity":
    case "level":
    case "expression":
      return isExpression(item);
    case "number":
      return item.kind === "quantity";
    case "choice":
      return item.kind === "word" && Object.hasOwn(part.words, item.name);
    case "declares":
    case "names":
      return item.kind === "word";
    case "text":
    case "path":
      return item.kind === "text";
    case "code":
    case "date":
    case "range":
      return item.kind === part.kind;
    case "either":
      return part.parts.some((way) => fits(item, way));
  }
}

/** True when a bare word would be taken for the name of a value. */
export const takesValues: (part: Part) => boolean = onceForEach((part) =>
  waysOf(part).some((way) => way.kind === "quantity" || way.kind === "level" || way.kind === "expression"),
);

/** What is wrong with an item that fits its part, or undefined. */
export function faultOf(item: Item, part: Part): Problem | undefined {
  const way = waysOf(part).find((one) => fits(item, one));
  switch (way?.kind) {
    case "quantity":
      return unitFault(item, way.of, way.plain);
    case "level":
      return unitFault(item, ["length"], false);
    case "number":
      return numberFault(item, way.known);
    case "range":
      return item.kind === "range" ? rangeFault(item, way) : undefined;
    default:
      return undefined;
  }
}

/** The problem of an item that cannot stand for the part at all. */
export function unfit(item: Item, part: Part): Problem {
  const expected = expectedOf(part);
  const words = choicesOf(part);
  if (item.kind === "word" && words.length > 0) {
    const near = meant(item.name, words);
    const problem: Problem = { slug: "unknown-word", span: item.span, found: item.name, expected };
    return near === undefined ? problem : { ...problem, near, repairs: [changeWord(item, near)] };
  }
  const problem: Problem = { slug: "misplaced", span: item.span, found: described(item), expected };
  const repair = quotesRepair(item, part, words);
  return repair === undefined ? problem : { ...problem, repairs: [repair] };
}

/** The problem of a word that stands behind a number where its unit should; undefined when the part has no unit. */
export function strangeUnit(word: Word, part: Part): Problem | undefined {
  const dimensions = waysOf(part).flatMap(dimensionsIn);
  if (dimensions.length === 0) return undefined;
  const fitting = [...unitWords].filter(([, { dimension }]) => dimensions.includes(dimension));
  const expected = [...new Set(fitting.map(([, { unit }]) => unit))];
  const near = nearest(
    word.name,
    fitting.map(([typed]) => typed),
  );
  const problem: Problem = { slug: "unknown-word", span: word.span, found: word.name, expected };
  return near === undefined ? problem : { ...problem, near, repairs: [changeWord(word, near)] };
}

function dimensionsIn(way: Part): readonly DimensionName[] {
  if (way.kind === "level") return ["length"];
  return way.kind === "quantity" || way.kind === "range" ? way.of : [];
}

/** Quotes that are missing round a text, or that stand round a word. */
function quotesRepair(item: Item, part: Part, words: readonly string[]): Repair | undefined {
  if (item.kind === "word" && waysOf(part).some((way) => way.kind === "text")) {
    return replace("Put it in quotes", item.span, `"${item.name}"`);
  }
  if (item.kind === "text" && words.includes(item.value)) {
    return replace("Take the quotes away", item.span, item.value);
  }
  return undefined;
}

function isExpression(item: Item): boolean {
  switch (item.kind) {
    case "quantity":
    case "word":
    case "call":
    case "group":
    case "negated":
    case "binary":
    case "reading":
      return true;
    default:
      return false;
  }
}

/** The one quantity that an item consists of, behind signs, parentheses and `on`; undefined for anything worked out. */
function lone(item: Item): QuantityItem | undefined {
  let inner = item;
  for (;;) {
    if (inner.kind === "quantity") return inner;
    if (inner.kind === "reading") inner = inner.value;
    else if (inner.kind === "group" || inner.kind === "negated") inner = inner.inner;
    else return undefined;
  }
}

function unitFault(item: Item, of: readonly DimensionName[], plain: boolean | undefined): Problem | undefined {
  const quantity = lone(item);
  if (quantity === undefined) return undefined;
  if (quantity.unit === undefined) return plain === true ? undefined : missingUnit([quantity], of);
  return dimensionFault(quantity, of, plain);
}

function dimensionFault(
  quantity: QuantityItem,
  of: readonly DimensionName[],
  plain: boolean | undefined,
): Problem | undefined {
  for (const unit of [quantity.unit, quantity.plusMinusUnit]) {
    const dimension = unit === undefined ? undefined : dimensionOf(unit);
    if (dimension === undefined || of.includes(dimension)) continue;
    return {
      slug: "unit-mismatch",
      span: quantity.span,
      found: dimensionInWords(dimension),
      expected: dimensionsExpected(of, plain),
    };
  }
  return undefined;
}

function missingUnit(quantities: readonly QuantityItem[], of: readonly DimensionName[]): Problem | undefined {
  const first = quantities[0];
  if (first === undefined) return undefined;
  const problem: Problem = {
    slug: "unit-missing",
    span: first.span,
    found: first.number.text,
    expected: dimensionsExpected(of, false),
  };
  const repairs = of.flatMap((dimension) => usualUnits.get(dimension) ?? []).map((unit) => addUnit(quantities, unit));
  return repairs.length === 0 ? problem : { ...problem, repairs };
}

function addUnit(quantities: readonly QuantityItem[], unit: string): Repair {
  const edits = quantities.map(({ span }) => ({ span: { start: span.end, end: span.end }, text: ` ${unit}` }));
  return { title: `Write it in ${unit}`, edits };
}

function numberFault(item: Item, known: readonly string[] | undefined): Problem | undefined {
  if (item.kind !== "quantity") return undefined;
  const dimension = item.unit === undefined ? undefined : dimensionOf(item.unit);
  if (dimension !== undefined) {
    const found = dimensionInWords(dimension);
    return { slug: "unit-mismatch", span: item.span, found, expected: [plainNumber] };
  }
  if (known === undefined || known.includes(item.number.text)) return undefined;
  return { slug: "unknown-word", span: item.span, found: item.number.text, expected: known };
}

/** A range is one thing: its missing units are one fault, then its dimensions, then its step. */
function rangeFault(item: RangeItem, part: Part & { readonly kind: "range" }): Problem | undefined {
  const ends = item.by === undefined ? [item.from, item.to] : [item.from, item.to, item.by];
  const quantities = ends.map(lone).filter((quantity) => quantity !== undefined);
  const bare = quantities.filter((quantity) => quantity.unit === undefined);
  if (bare.length > 0 && (part.plain !== true || bare.length < quantities.length)) {
    return missingUnit(bare, dimensionsGiven(quantities) ?? part.of);
  }
  for (const quantity of quantities) {
    const fault = dimensionFault(quantity, part.of, part.plain);
    if (fault !== undefined) return fault;
  }
  return stepFault(item, part);
}

/** The dimension that the units of a range already tell, so that a missing one is not guessed. */
function dimensionsGiven(quantities: readonly QuantityItem[]): readonly DimensionName[] | undefined {
  for (const { unit } of quantities) {
    const dimension = unit === undefined ? undefined : dimensionOf(unit);
    if (dimension !== undefined) return [dimension];
  }
  return undefined;
}

function stepFault(item: RangeItem, part: Part & { readonly kind: "range" }): Problem | undefined {
  if (part.stepped === true && item.by === undefined) {
    const end = item.span.end;
    const repairs = [insert("Write a step of 1 mm", end, " by 1 mm")];
    return { slug: "missing", span: item.span, expected: ["by and a step"], repairs };
  }
  if (part.stepped !== true && item.by !== undefined) {
    return { slug: "misplaced", span: item.by.span, found: "by", expected: ["a range without a step"] };
  }
  return undefined;
}
