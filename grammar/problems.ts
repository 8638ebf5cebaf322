/**
 * What the text itself can be wrong about, as plain records. The words a reader sees, the reasons and the examples live with
 * the finding of the same slug; a problem carries only what that finding needs to say it.
 */
import type { Span } from "./tree.ts";

export type ProblemSlug =
  | "unreadable"
  | "unknown-word"
  | "misplaced"
  | "missing"
  | "repeated"
  | "unit-missing"
  | "unit-mismatch"
  | "decimal-comma"
  | "thousands-separator"
  | "name-unknown"
  | "name-repeated"
  | "name-unused"
  | "scale-missing"
  | "file-missing"
  | "file-circular"
  | "file-outside"
  | "hidden-character"
  | "too-deep"
  | "too-long"
  | "note-adrift";

/** One replacement in the text; `span` may be empty (an insertion). */
export interface Edit {
  readonly span: Span;
  readonly text: string;
}

/** A ready repair. Its title says what it does. */
export interface Repair {
  readonly title: string;
  readonly edits: readonly Edit[];
}

export interface Problem {
  readonly slug: ProblemSlug;
  readonly span: Span;
  /** What was found there, as typed or named. */
  readonly found?: string;
  /** What was expected, each a word or a short phrase in plain English. */
  readonly expected?: readonly string[];
  /** The nearest known word, when one is near enough to be meant. */
  readonly near?: string;
  /** Where it stands, in words: a block or a statement. */
  readonly inside?: string;
  /** The other place concerned (first of two, opening brace). */
  readonly also?: Span;
  readonly repairs?: readonly Repair[];
  /** A hidden character inside a text is a milder matter. */
  readonly mild?: boolean;
}
