/**
 * What a part of the vocabulary and a thing in the text are called in plain English, and the word that was probably meant. Only
 * words are made here; where they are shown is decided elsewhere.
 */
import { nearest } from "./nearest.ts";
import { onceForEach } from "./once.ts";
import type { Repair } from "./problems.ts";
import type { Item, QuantityItem, Span, Statement, Word } from "./tree.ts";
import type { DimensionName, NameKind, Part, Slot } from "./vocabulary/rule.ts";
import { unitWords } from "./vocabulary/units.ts";

const dimensionWords: Readonly<Record<DimensionName, string>> = {
  length: "a length",
  angle: "an angle",
  mass: "a mass",
  time: "a time",
  pressure: "a pressure",
  force: "a force",
  moment: "a moment",
  volume: "a volume",
  share: "a share",
  rotation: "a number of turns",
  density: "a density",
};

const nameWords: Readonly<Record<NameKind, string>> = {
  view: "the name of a view",
  landmark: "the name of a landmark",
  value: "a name",
  hole: "the name of a hole",
  nail: "the name of a nail",
  screws: "the name of a screw family",
  finding: "the name of a finding",
  limit: "the name of a limit",
  word: "a word",
};

export const plainNumber = "a number without a unit";

export function isNamed(item: Item | undefined, name: string): boolean {
  return item?.kind === "word" && item.name === name;
}

/** Whether one of the statement's phrases begins with this word. */
export function beginsPhrase({ phrases }: Statement, word: string): boolean {
  return phrases.some(({ items: [first] }) => isNamed(first, word));
}

/** The parts that a part is made of: itself, or the ways of an either, as deep as they go. */
export const waysOf: (part: Part) => readonly Part[] = onceForEach((part) =>
  part.kind === "either" ? part.parts.flatMap(waysOf) : [part],
);

/** The words of every choice in a part. */
export const choicesOf: (part: Part) => readonly string[] = onceForEach((part) =>
  waysOf(part).flatMap((way) => (way.kind === "choice" ? Object.keys(way.words) : [])),
);

/** What is to be written for a slot, with the fixed word before it. */
export function expectedIn(slot: Slot): readonly string[] {
  const expected = expectedOf(slot.part);
  return slot.lead === undefined ? expected : expected.map((words) => `${slot.lead} and ${words}`);
}

/** What may stand for a part: words as they are written, anything else in plain English. */
export function expectedOf(part: Part): readonly string[] {
  return [...new Set(waysOf(part).flatMap(expectedOfOne))];
}

function expectedOfOne(part: Part): readonly string[] {
  switch (part.kind) {
    case "quantity":
      return dimensionsExpected(part.of, part.plain);
    case "range":
      return [rangeExpected(part.of, part.stepped)];
    case "choice":
      return Object.keys(part.words);
    case "level":
      return ["a level (a length along the canal's axis)"];
    case "number":
      return part.known ?? [plainNumber];
    case "declares":
    case "names":
      return [nameWords[part.name]];
    case "text":
      return ["a text in quotes"];
    case "path":
      return ["a path in quotes"];
    case "code":
      return [part.bones === "fibula" ? "a fracture code of the fibula" : "a fracture code"];
    case "date":
      return ["a date (2026-03-02)"];
    case "expression":
      return ["a value"];
    case "either":
      return part.parts.flatMap(expectedOfOne);
  }
}

/** Dimensions in plain English, "a length" for each; a plain number too where one may stand. */
export function dimensionsExpected(of: readonly DimensionName[], plain: boolean | undefined): readonly string[] {
  const named = of.map((dimension) => dimensionWords[dimension]);
  return plain === true ? [...named, plainNumber] : named;
}

function rangeExpected(of: readonly DimensionName[], stepped: boolean | undefined): string {
  const unit = of[0] === "length" ? " mm" : "";
  return stepped === true ? `a range (1${unit} to 2${unit} by 1${unit})` : `a range (1${unit} to 2${unit})`;
}

/** The dimension of a typed unit, as typed or in its canonical spelling. */
export function dimensionOf(unit: { readonly text: string; readonly unit: string }): DimensionName | undefined {
  return (unitWords.get(unit.text) ?? unitWords.get(unit.unit))?.dimension;
}

export function dimensionInWords(dimension: DimensionName): string {
  return dimensionWords[dimension];
}

/** What stands in the text, as typed where it is short, else named. */
export function described(item: Item): string {
  switch (item.kind) {
    case "word":
      return item.name;
    case "quantity":
      return quantityAsTyped(item);
    case "text":
      return "a text";
    case "code":
    case "date":
    case "broken":
      return item.text;
    case "equals":
      return "=";
    case "range":
      return "a range";
    case "call":
      return `${item.name.name}(…)`;
    case "group":
    case "negated":
    case "binary":
      return "an expression";
    case "reading":
      return `a reading on ${item.view.name}`;
  }
}

function quantityAsTyped(item: QuantityItem): string {
  return item.unit === undefined ? item.number.text : `${item.number.text} ${item.unit.text}`;
}

/** The known word that was probably meant: the nearest one, or the only one that begins with what is typed so far. */
export function meant(typed: string, known: readonly string[]): string | undefined {
  const near = nearest(typed, known);
  if (near !== undefined) return near;
  const begun = known.filter((word) => word.startsWith(typed));
  return begun.length === 1 ? begun[0] : undefined;
}

export function changeWord(word: Word, to: string): Repair {
  return { title: `Change \`${word.name}\` to \`${to}\``, edits: [{ span: word.span, text: to }] };
}

export function insert(title: string, offset: number, text: string): Repair {
  return { title, edits: [{ span: { start: offset, end: offset }, text }] };
}

export function replace(title: string, span: Span, text: string): Repair {
  return { title, edits: [{ span, text }] };
}
