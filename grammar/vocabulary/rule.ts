/**
 * How the vocabulary is written down: blocks hold statement rules, a statement rule lists what follows its word and the clauses
 * that may come after commas. The tables beside this file hold the words; nothing here knows any.
 */

/** Dimension names as the vocabulary speaks of them; `server/quantity` gives each its exponents. */
export type DimensionName =
  | "length"
  | "angle"
  | "mass"
  | "time"
  | "pressure"
  | "force"
  | "moment"
  | "volume"
  | "share"
  | "rotation"
  | "density";

/** What a name in the text refers to. */
export type NameKind = "view" | "landmark" | "value" | "hole" | "nail" | "screws" | "finding" | "limit" | "word";

/** One thing written in a phrase. */
export type Part =
  /** `plain` lets a number without a unit stand too: a count or a ratio. */
  | {
      readonly kind: "quantity";
      readonly of: readonly DimensionName[];
      readonly signed?: boolean;
      readonly plain?: boolean;
    }
  /** A length along the canal's axis; landmarks may be used in it. */
  | { readonly kind: "level" }
  /** A bare number: the edition of the language. `known` lists the only ones there are, as typed. */
  | { readonly kind: "number"; readonly known?: readonly string[] }
  | { readonly kind: "choice"; readonly words: Readonly<Record<string, string>> }
  /** A name given here for the first time. `known` are names that are reckoned with, each with its meaning. */
  | { readonly kind: "declares"; readonly name: NameKind; readonly known?: Readonly<Record<string, string>> }
  /** A name given elsewhere. */
  | { readonly kind: "names"; readonly name: NameKind }
  | { readonly kind: "text" }
  | { readonly kind: "path" }
  | { readonly kind: "code"; readonly bones: "main" | "fibula" | "any" }
  | { readonly kind: "date" }
  /** `A to B` with or without `by C`; `stepped` asks for the `by`. */
  | {
      readonly kind: "range";
      readonly of: readonly DimensionName[];
      readonly stepped?: boolean;
      readonly plain?: boolean;
    }
  /** Any value: the right side of `let`. */
  | { readonly kind: "expression" }
  /** The first of these that fits. */
  | { readonly kind: "either"; readonly parts: readonly Part[] };

export interface Slot {
  /** By which the meaning asks for it. */
  readonly name: string;
  readonly part: Part;
  /** `optional` may be absent; `many` takes one or more, across spaces and commas. Absent: exactly one. */
  readonly times?: "optional" | "many" | "any";
  /** A fixed word that stands before it (`let NAME = …` has `=`; `from`/`to` are clauses or ranges, not lead words). */
  readonly lead?: string;
  /** Stands only after one of these words in the choice before it, and then must stand unless `times` lets it be absent. */
  readonly after?: readonly string[];
  readonly doc: string;
}

/**
 * Parts of which only one way is taken: each way names clauses, or head slots by name, that go together. `needed` asks for one
 * of the ways; `together` lets several be taken (at least one of them is then meant).
 */
export interface Alternatives {
  readonly ways: readonly (readonly string[])[];
  readonly needed?: boolean;
  readonly together?: boolean;
}

export interface ClauseRule {
  readonly word: string;
  readonly doc: string;
  readonly slots: readonly Slot[];
  readonly required?: boolean;
  readonly repeats?: boolean;
}

export interface StatementRule {
  readonly word: string;
  /** One line, sentence case, ends with a full stop; shown in hovers and completions. */
  readonly doc: string;
  readonly slots: readonly Slot[];
  readonly clauses: readonly ClauseRule[];
  /** `one` = required once, `optional` = at most once, `many` = any number. */
  readonly times: "one" | "optional" | "many";
  readonly alternatives?: Alternatives;
  /** True when it must be the first statement of its block; its example is then the line to write. */
  readonly first?: boolean;
  /** Name of the block this statement opens. */
  readonly block?: string;
  readonly blockOptional?: boolean;
  /** A line that is right as it stands. */
  readonly example: string;
}

export interface BlockRule {
  readonly name: string;
  readonly doc: string;
  readonly statements: readonly StatementRule[];
  /** Statements of which only one may stand, by word. */
  readonly alternatives?: Alternatives;
}
