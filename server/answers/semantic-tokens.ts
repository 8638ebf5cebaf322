/**
 * What each word of a text is by its meaning, for colouring: a statement's word, a clause, a choice, a name with what it names. What no
 * table of the vocabulary and no declaration knows has no token.
 */
import type { ShapedStatement } from "../../grammar/shape.ts";
import { type LexKind, lex } from "../../grammar/tokens.ts";
import type { Item, Span } from "../../grammar/tree.ts";
import type { NameKind, Part, Slot } from "../../grammar/vocabulary/rule.ts";
import type { Analysis } from "./analyse.ts";
import { itemsAt } from "./at.ts";
import { statementsOf } from "./statements.ts";

/** Names the protocol gives, so that every theme has a colour for them; the order is the legend's. */
export const tokenTypes = [
  ...(["keyword", "property", "enumMember", "variable", "namespace", "class", "decorator"] as const),
  ...(["type", "function", "number", "string", "comment", "operator"] as const),
] as const;

/** `defaultLibrary` marks what the tool itself gives, `readonly` what a file that is read gives. */
export const tokenModifiers = ["declaration", "readonly", "defaultLibrary", "documentation"] as const;

export type TokenType = (typeof tokenTypes)[number];
export type TokenModifier = (typeof tokenModifiers)[number];

export interface SemanticToken {
  readonly span: Span;
  readonly type: TokenType;
  readonly modifiers: readonly TokenModifier[];
}

export const typeOfName: Readonly<Record<NameKind, TokenType>> = {
  value: "variable",
  landmark: "variable",
  view: "namespace",
  hole: "class",
  nail: "class",
  screws: "class",
  finding: "decorator",
  limit: "decorator",
  word: "enumMember",
};

/** Undefined for what only its meaning can tell, and for what is no part of the language. */
export const typeOfLexKind: Readonly<Record<LexKind, TokenType | undefined>> = {
  word: undefined,
  number: "number",
  unit: "type",
  "operator-word": "operator",
  code: "enumMember",
  date: "number",
  text: "string",
  operator: "operator",
  punctuation: undefined,
  comment: "comment",
  note: "comment",
  newline: undefined,
  odd: undefined,
};

/** In the order of the text; none overlaps another. A text over several lines is one token. */
export function tokensIn(analysis: Analysis, within: Span): readonly SemanticToken[] {
  const meant = new Map<number, Meant>();
  for (const shaped of statementsOf(analysis.meaning.shaped.statements)) {
    if (shaped.statement.span.start <= within.end && within.start <= shaped.statement.span.end) addWords(meant, shaped);
  }
  addNames(meant, analysis);
  return lex(analysis.text)
    .filter(({ span }) => span.start < within.end && within.start < span.end)
    .flatMap(({ kind, span, text }): SemanticToken[] => {
      const plain = plainToken(kind, span);
      if (kind !== "word" && kind !== "unit" && kind !== "operator-word") return plain;
      const known = meant.get(span.start) ?? (kind === "word" ? functionAt(analysis, span, text) : undefined);
      return known === undefined ? plain : [{ span, ...known }];
    });
}

type Meant = Omit<SemanticToken, "span">;

function plainToken(kind: LexKind, span: Span): SemanticToken[] {
  const type = typeOfLexKind[kind];
  return type === undefined ? [] : [{ span, type, modifiers: kind === "note" ? ["documentation"] : [] }];
}

function addWords(meant: Map<number, Meant>, shaped: ShapedStatement): void {
  const { statement, rule, clauses, slots } = shaped;
  if (rule === undefined) return;
  if (statement.word.name !== "") meant.set(statement.word.span.start, { type: "keyword", modifiers: [] });
  const slotsOfAll = [rule, ...clauses.map((clause) => clause.rule)].flatMap((part) => part.slots);
  const leads = new Set(slotsOfAll.map(({ lead }) => lead));
  for (const item of statement.phrases.flatMap(({ items }) => items)) {
    if (item.kind === "word" && leads.has(item.name)) meant.set(item.span.start, { type: "property", modifiers: [] });
  }
  addChoices(meant, rule.slots, slots);
  for (const clause of clauses) {
    meant.set(clause.word.span.start, { type: "property", modifiers: [] });
    addChoices(meant, clause.rule.slots, clause.slots);
  }
}

function addChoices(
  meant: Map<number, Meant>,
  slots: readonly Slot[],
  filled: ReadonlyMap<string, readonly Item[]>,
): void {
  for (const { name, part } of slots) {
    for (const item of filled.get(name) ?? []) {
      if (item.kind === "word" && isChoice(part, item.name)) {
        meant.set(item.span.start, { type: "enumMember", modifiers: [] });
      }
    }
  }
}

function isChoice(part: Part, word: string): boolean {
  if (part.kind === "either") return part.parts.some((way) => isChoice(way, word));
  return part.kind === "choice" && Object.hasOwn(part.words, word);
}

function addNames(meant: Map<number, Meant>, { file, meaning }: Analysis): void {
  const { declarations, uses } = meaning.references;
  for (const { kind, span, declared } of uses) {
    const isOfTool = kind === "finding" || kind === "limit";
    const origin: readonly TokenModifier[] = isOfTool
      ? ["defaultLibrary"]
      : declared?.file === file
        ? []
        : ["readonly"];
    // A name that nothing gives is left without colour: it is most likely a slip.
    if (isOfTool || kind === "word" || declared !== undefined)
      meant.set(span.start, { type: typeOfName[kind], modifiers: origin });
  }
  for (const { kind, place } of declarations) {
    if (place.file === file) meant.set(place.span.start, { type: typeOfName[kind], modifiers: ["declaration"] });
  }
}

function functionAt(analysis: Analysis, span: Span, text: string): Meant | undefined {
  if (analysis.text[span.end] !== "(" && !/^\s*\(/.test(analysis.text.slice(span.end, span.end + 4))) return undefined;
  const calls = itemsAt(analysis.parsed.tree, span.start).some(
    (item) => item.kind === "call" && item.name.name === text,
  );
  return calls ? { type: "function", modifiers: ["defaultLibrary"] } : undefined;
}
