/**
 * Reads the slots of shaped statements into typed values, words and lists, each with its place. It holds a value to the dimension
 * its slot asks for; which statement means what is known in the file of each block.
 */
import type { ShapedClause, ShapedStatement } from "../../grammar/shaped.ts";
import type { Item, RangeItem, Span } from "../../grammar/tree.ts";
import { unknown } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { dimensionOf, sameDimension } from "../quantity/units.ts";
import { inWords } from "./dimension-words.ts";
import { type Evaluation, evaluate } from "./evaluate.ts";
import type { Scope } from "./names.ts";
import type { Directed, Place, Said, SizeList, Typed } from "./plan.ts";
import { readingBehind } from "./readings.ts";
import { writeOut } from "./sizes.ts";
import { clauseOf, dimensionsOf, partOf, type Slotted } from "./slots.ts";

/** What is read from: the evaluation of one document, at one block. */
export interface Reader extends Evaluation {
  readonly scope: Scope;
}

/** The reader inside a statement's block. */
export function within(reader: Reader, statement: ShapedStatement): Reader {
  return { ...reader, scope: reader.names.scopes.get(statement) ?? reader.scope };
}

export function placeOf(reader: Evaluation, span: Span): Place {
  return { file: reader.file, span };
}

/** The first item of a slot as a word or text; undefined when absent or when the text has a problem there. */
export function said(reader: Reader, slotted: Slotted | undefined, slot: string): Said | undefined {
  return saids(reader, slotted, slot)[0];
}

/** Every item of a slot as a word or text. */
export function saids(reader: Reader, slotted: Slotted | undefined, slot: string): readonly Said[] {
  const items = slotted?.slots.get(slot) ?? [];
  return items.flatMap((item) => saidItem(reader, item) ?? []);
}

/**
 * The same for a list of fixed words. A word that is misspelt, and told so, counts as the word that was probably meant: its
 * absence is not to be told as well.
 */
export function things(reader: Reader, slotted: Slotted | undefined, slot: string): readonly Said[] {
  const given = saids(reader, slotted, slot);
  const misspelt = slotted === undefined ? [] : reader.problems.allSpoiling(regionOf(slotted));
  const meant = misspelt.flatMap(({ slug, near, span }) =>
    slug === "unknown-word" && near !== undefined ? [{ text: near, place: placeOf(reader, span) }] : [],
  );
  return [...given, ...meant].sort((a, b) => a.place.span.start - b.place.span.start);
}

/**
 * The value of a slot in the dimension it asks for. Undefined when nothing stands there; unknown when what stands there was told
 * as a mistake.
 */
export function typed(reader: Reader, slotted: Slotted | undefined, slot: string, label: string): Typed | undefined {
  if (slotted === undefined) {
    return undefined;
  }
  const item = slotted.slots.get(slot)?.[0];
  if (item !== undefined) {
    return typedItem(reader, slotted, slot, item, label);
  }
  const spoilt = reader.problems.spoiling(regionOf(slotted));
  return spoilt === undefined ? undefined : unreadable(reader, label, spoilt.span);
}

/** The value in a clause's only slot. */
export function typedClause(
  reader: Reader,
  statement: ShapedStatement,
  word: string,
  label: string,
): Typed | undefined {
  const clause = clauseOf(statement, word);
  return typed(reader, clause, onlySlot(clause), label);
}

/** The words or texts in a clause's only slot. */
export function saidsOfClause(reader: Reader, statement: ShapedStatement, word: string): readonly Said[] {
  const clause = clauseOf(statement, word);
  return saids(reader, clause, onlySlot(clause));
}

export function saidOfClause(reader: Reader, statement: ShapedStatement, word: string): Said | undefined {
  return saidsOfClause(reader, statement, word)[0];
}

/** Both ends of `A to B`; a lone value has neither end. */
export function ends(
  reader: Reader,
  slotted: Slotted | undefined,
  slot: string,
  label: string,
): { readonly from: Typed | undefined; readonly to: Typed | undefined } {
  const item = slotted?.slots.get(slot)?.[0];
  if (slotted === undefined || item?.kind !== "range") {
    return { from: undefined, to: undefined };
  }
  const from = typedItem(reader, slotted, slot, item.from, `${label} from`);
  return { from, to: typedItem(reader, slotted, slot, item.to, `${label} to`) };
}

/**
 * A list of sizes with its ranges written out; undefined when nothing stands there. A member that was told as a mistake is
 * unknown, so that nobody takes the rest for the whole.
 */
export function sizes(reader: Reader, slotted: Slotted | undefined, slot: string, label: string): SizeList | undefined {
  if (slotted === undefined) {
    return undefined;
  }
  const ranges: { readonly to: Typed; readonly last: Typed }[] = [];
  const list = (slotted.slots.get(slot) ?? []).flatMap((item) =>
    item.kind === "range"
      ? range(reader, slotted, slot, item, label, ranges)
      : [typedItem(reader, slotted, slot, item, label)],
  );
  const spoilt = reader.problems.allSpoiling(regionOf(slotted));
  const all = [...list, ...spoilt.map(({ span }) => unreadable(reader, label, span))];
  all.sort((a, b) => a.place.span.start - b.place.span.start);
  const [first, last] = [all[0], all.at(-1)];
  if (first === undefined || last === undefined) {
    return undefined;
  }
  return { sizes: all, place: placeOf(reader, { start: first.place.span.start, end: last.place.span.end }), ranges };
}

/** An amount with its direction word; undefined unless both stand there. */
export function directed(
  reader: Reader,
  clause: ShapedClause | undefined,
  slots: { readonly amount: string; readonly direction: string },
  label: string,
): Directed | undefined {
  const amount = typed(reader, clause, slots.amount, label);
  const direction = said(reader, clause, slots.direction);
  return amount === undefined || direction === undefined ? undefined : { amount, direction };
}

/** The whole line of a statement without its block: what a reader points at. */
export function lineSpan(statement: ShapedStatement): Span {
  const { word, phrases, span, block } = statement.statement;
  const end = block === undefined ? span.end : (phrases.at(-1)?.span.end ?? word.span.end);
  return { start: word.span.start, end: Math.max(end, word.span.end) };
}

/** Where the parts of a head or a clause stand: to the next clause at most. */
function regionOf(slotted: Slotted): Span {
  if (slotted.statement === undefined) {
    return slotted.span ?? { start: 0, end: 0 };
  }
  const { span, word } = slotted.statement;
  const end = slotted.clauses?.[0]?.span.start ?? slotted.statement.block?.open.start ?? span.end;
  return { start: word.span.end, end };
}

function unreadable(reader: Reader, label: string, span: Span): Typed {
  return { quantity: unknown(`${label} could not be read`), place: placeOf(reader, span) };
}

function saidItem(reader: Reader, item: Item): Said | undefined {
  const text = textOf(item);
  return text === undefined || reader.problems.spoiling(item.span) !== undefined
    ? undefined
    : { text, place: placeOf(reader, item.span) };
}

function typedItem(reader: Reader, slotted: Slotted, slot: string, item: Item, label: string): Typed {
  const place = placeOf(reader, item.span);
  const quantity = held(reader, slotted, slot, item, evaluate(reader, item, reader.scope, label));
  const reading = readingBehind(reader, item, quantity);
  return { quantity, place, ...(reading === undefined ? {} : { reading }) };
}

/** Holds a value to its slot's dimension. */
function held(reader: Reader, slotted: Slotted, slot: string, item: Item, quantity: Quantity): Quantity {
  const dimensions = dimensionsOf(partOf(slotted, slot));
  if (quantity.kind === "unknown" || dimensions === undefined) {
    return quantity;
  }
  if (dimensions.some((name) => sameDimension(quantity.dimension, dimensionOf(name)))) {
    return quantity;
  }
  const found = inWords(quantity.dimension);
  const expected = dimensions.map((name) => inWords(dimensionOf(name)));
  reader.problems.add({ slug: "unit-mismatch", span: item.span, found, expected });
  return unknown(`${found} stands where ${expected.join(" or ")} is expected`);
}

function range(
  reader: Reader,
  slotted: Slotted,
  slot: string,
  item: RangeItem,
  label: string,
  ranges: { readonly to: Typed; readonly last: Typed }[],
): readonly Typed[] {
  const place = placeOf(reader, item.span);
  const from = typedItem(reader, slotted, slot, item.from, label);
  const to = typedItem(reader, slotted, slot, item.to, label);
  const by = item.by === undefined ? undefined : typedItem(reader, slotted, slot, item.by, label);
  const written = writeOut(from.quantity, to.quantity, by?.quantity);
  if (written.kind === "refused") {
    reader.problems.add({ slug: "unreadable", span: item.span, found: written.found, expected: [written.expected] });
    return [{ quantity: unknown(`${label}: ${written.found}`), place }];
  }
  const list = written.sizes.map((quantity) => ({ quantity, place }));
  const last = list.at(-1);
  if (last !== undefined) ranges.push({ to, last });
  return list;
}

function onlySlot(clause: ShapedClause | undefined): string {
  return clause?.rule.slots[0]?.name ?? "";
}

function textOf(item: Item): string | undefined {
  switch (item.kind) {
    case "word":
      return item.name;
    case "text":
      return item.value;
    case "code":
    case "date":
      return item.text;
    default:
      return undefined;
  }
}
