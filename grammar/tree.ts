/**
 * The syntax tree: what stands in the text, with its place, and nothing of what it means. Every node is readonly and knows
 * its span; a broken part stands in the tree as `broken`, so that nothing written is ever lost.
 */

/** A stretch of text: offsets in UTF-16 units from the start of the text, `end` exclusive. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface Tree {
  readonly kind: "tree";
  readonly statements: readonly Statement[];
  readonly comments: readonly Comment[];
  /** Notes after the last statement, which belong to nothing. */
  readonly adrift: readonly Note[];
  readonly span: Span;
}

/** `# …` to the end of the line; `text` holds the sign too. `alone` when nothing else stands on its line. */
export interface Comment {
  readonly kind: "comment";
  readonly text: string;
  readonly alone: boolean;
  readonly span: Span;
}

/** `## …`: Markdown for the next statement, one node a line; `text` is without the signs and the space after them. */
export interface Note {
  readonly kind: "note";
  readonly text: string;
  readonly span: Span;
}

export interface Statement {
  readonly kind: "statement";
  readonly notes: readonly Note[];
  readonly word: Word;
  /** What stands between the commas; the first phrase begins right after the word and may be empty. */
  readonly phrases: readonly Phrase[];
  readonly block: Block | undefined;
  /** From the word to the end of the line or of the block; notes are outside. */
  readonly span: Span;
  /** True when any part of the line could not be read. */
  readonly broken: boolean;
}

export interface Block {
  readonly kind: "block";
  readonly statements: readonly Statement[];
  /** The opening brace. */
  readonly open: Span;
  /** The closing brace; undefined when it is missing. */
  readonly close: Span | undefined;
  /** Notes after the last statement, which belong to nothing. */
  readonly adrift: readonly Note[];
  readonly span: Span;
}

export interface Phrase {
  readonly kind: "phrase";
  readonly items: readonly Item[];
  readonly span: Span;
}

export type Item = RangeItem | Expression | TextItem | CodeItem | DateItem | EqualsItem | BrokenItem;

export interface RangeItem {
  readonly kind: "range";
  readonly from: Expression;
  readonly to: Expression;
  readonly by: Expression | undefined;
  readonly span: Span;
}

export type Expression = QuantityItem | Word | Call | Group | Negated | Binary | Reading;

/** `12`, `12 mm`, `12 mm ± 0.2 mm`. A number without a unit has `unit` undefined. */
export interface QuantityItem {
  readonly kind: "quantity";
  readonly number: NumberItem;
  readonly unit: UnitItem | undefined;
  readonly plusMinus: NumberItem | undefined;
  /** The unit behind `±`; when only one unit is written it stands in `unit` and here alike. */
  readonly plusMinusUnit: UnitItem | undefined;
  readonly span: Span;
}

/** `value` is finite; `text` keeps the digits as typed. */
export interface NumberItem {
  readonly text: string;
  readonly value: number;
  readonly span: Span;
}

/** `text` as typed (`°`, `percent`, `week`), `unit` the canonical word (`deg`, `%`, `weeks`). */
export interface UnitItem {
  readonly text: string;
  readonly unit: string;
  readonly span: Span;
}

export interface Word {
  readonly kind: "word";
  readonly name: string;
  readonly span: Span;
}

export interface Call {
  readonly kind: "call";
  readonly name: Word;
  readonly arguments: readonly Expression[];
  readonly span: Span;
}

export interface Group {
  readonly kind: "group";
  readonly inner: Expression;
  readonly span: Span;
}

export interface Negated {
  readonly kind: "negated";
  readonly inner: Expression;
  readonly span: Span;
}

export interface Binary {
  readonly kind: "binary";
  readonly operator: "+" | "-" | "*" | "/";
  readonly left: Expression;
  readonly right: Expression;
  readonly span: Span;
}

/** `value on view`: a length read on an image. */
export interface Reading {
  readonly kind: "reading";
  readonly value: Expression;
  readonly view: Word;
  readonly span: Span;
}

/** `value` is the text meant (escapes undone, common indent removed), `source` what was typed with its quotes. */
export interface TextItem {
  readonly kind: "text";
  readonly value: string;
  readonly source: string;
  readonly span: Span;
}

/** A fracture code as typed, hyphen of the older spelling included. */
export interface CodeItem {
  readonly kind: "code";
  readonly text: string;
  readonly span: Span;
}

/** `2026-03-02`, checked for shape, not for the calendar. */
export interface DateItem {
  readonly kind: "date";
  readonly text: string;
  readonly span: Span;
}

/** The `=` of `let NAME = EXPRESSION`. */
export interface EqualsItem {
  readonly kind: "equals";
  readonly span: Span;
}

/** Text that fits nowhere, kept as typed; also a phrase that is missing after a comma (then empty). */
export interface BrokenItem {
  readonly kind: "broken";
  readonly text: string;
  readonly span: Span;
}
