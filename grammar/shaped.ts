/**
 * Statements read against the vocabulary: which rule each one follows and what stands in which slot. What a slot holds fits it in
 * kind and, where that can be seen, in unit; anything else written there is a problem and is not here.
 */
import type { Problem } from "./problems.ts";
import type { Item, Span, Statement, Word } from "./tree.ts";
import type { ClauseRule, StatementRule } from "./vocabulary/rule.ts";

export interface ShapedStatement {
  readonly statement: Statement;
  /** For a misspelt word the rule that was meant. Undefined for a word that has no place in its block. */
  readonly rule: StatementRule | undefined;
  /** Name of the block it stands in. */
  readonly block: string;
  /** What stands before the clauses, by slot name; a slot with nothing right in it is absent. */
  readonly slots: ReadonlyMap<string, readonly Item[]>;
  /** In the order written; a repeated clause stands here again, the first one counts. */
  readonly clauses: readonly ShapedClause[];
  readonly children: readonly ShapedStatement[];
}

export interface ShapedClause {
  readonly rule: ClauseRule;
  readonly word: Word;
  readonly slots: ReadonlyMap<string, readonly Item[]>;
  /** From the word to the last thing that belongs to it. */
  readonly span: Span;
}

export interface Shaped {
  /** What stands outside all braces. */
  readonly statements: readonly ShapedStatement[];
  readonly problems: readonly Problem[];
}
