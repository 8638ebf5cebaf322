/**
 * Where in a text the cursor is, for completion: which block, which statement, which part of it, and what has been typed of the
 * word there. The text is read as if any word stood at the cursor, so that what is half typed costs nothing around it.
 */
import { parse } from "../../grammar/parse.ts";
import { type ShapedStatement, shape } from "../../grammar/shape.ts";
import { type LexToken, lex } from "../../grammar/tokens.ts";
import type { Phrase, Span } from "../../grammar/tree.ts";
import { rulesOf } from "../../grammar/vocabulary/blocks.ts";
import type { StatementRule } from "../../grammar/vocabulary/rule.ts";
import { type Section, sectionAt } from "./section.ts";

interface Somewhere {
  /** Name of the block. */
  readonly block: string;
  /** What is typed of the word at the cursor: what an offer replaces. */
  readonly typed: Span;
  /** True when something other than a comma or a comment follows on the cursor's line. */
  readonly followed: boolean;
}

/** What may be written next: by the slots, or as it must be behind the last token. */
export type Expected = "slot" | "value" | "unit" | "view" | "nothing";

export interface Inside extends Somewhere {
  readonly kind: "inside";
  readonly shaped: ShapedStatement;
  readonly rule: StatementRule;
  /** The statements around it, the outermost first. */
  readonly around: readonly ShapedStatement[];
  readonly section: Section;
  readonly expected: Expected;
  /** True where a clause word may begin: after a comma, or in a head that takes nothing. */
  readonly opens: boolean;
  /** The function whose brackets the cursor stands in. */
  readonly call: string | undefined;
  /** The token before the cursor. */
  readonly last: LexToken | undefined;
}

export type Cursor =
  | (Somewhere & {
      readonly kind: "statement";
      /** The other statements of the block, before and after it. */
      readonly before: readonly ShapedStatement[];
      readonly after: readonly ShapedStatement[];
    })
  | Inside
  | { readonly kind: "nowhere" };

const nowhere: Cursor = { kind: "nowhere" };

/** The cursor with the word before it as typed, or, where a number or a code is being typed, with that whole. */
export function cursorAt(text: string, offset: number, typing: "word" | "number" = "word"): Cursor {
  if (lex(text).some((token) => isInside(token, offset))) return nowhere;
  const lineStart = startOfLine(text, offset);
  const line = text.slice(lineStart, offset);
  const pattern = typing === "word" ? /[A-Za-z][A-Za-z0-9-]*$/ : /(?<![\w-])\d[\w.()[\]-]*$/;
  const found = pattern.exec(line);
  if (typing === "number" && found === null) return nowhere;
  const typed = { start: lineStart + (found?.index ?? line.length), end: offset };
  return cursorIn(text, typed);
}

/** Where a word at `typed` would stand. */
function cursorIn(text: string, typed: Span): Cursor {
  const { start } = typed;
  const rest = /^[\w-]*/.exec(text.slice(typed.end))?.[0].length ?? 0;
  const after = text.slice(typed.end + rest);
  const before = lineTokens(text.slice(0, start));
  const patched = `${text.slice(0, start)} ${anyWord}${closersFor(before, after)} ${after}`;
  const at = start + 1;
  const path = pathTo(shape(parse(patched).tree).statements, at);
  const found = path.shaped.at(-1);
  if (found === undefined) return nowhere;
  const followed = !/^[^\S\r\n]*(?:[\r\n#,]|$)/.test(after);
  const here: Somewhere = { block: found.block, typed, followed };
  if (found.statement.word.span.start === at) {
    const level = path.shaped.at(-2)?.children ?? path.top;
    const blank = text.slice(startOfLine(text, start), start).trim() === "";
    const index = level.indexOf(found);
    return blank
      ? { kind: "statement", ...here, before: level.slice(0, index), after: level.slice(index + 1) }
      : nowhere;
  }
  return insideOf(here, path.shaped, found, before, at);
}

function insideOf(
  here: Somewhere,
  path: readonly ShapedStatement[],
  shaped: ShapedStatement,
  before: readonly LexToken[],
  at: number,
): Cursor {
  const { rule, statement } = shaped;
  if (rule === undefined || !rulesOf(shaped.block).has(statement.word.name)) return nowhere;
  const index = phraseWith(statement.phrases, at);
  if (index < 0) return nowhere;
  const last = before.at(-1);
  const depth = openBrackets(before).length;
  const expected = expectedAfter(last, depth);
  const cut = expected === "unit" ? (last?.span.start ?? at) : itemStart(statement.phrases[index], at);
  const section = sectionAt(rule, statement.phrases, index, cut);
  const opens = section.alone && (index > 0 || rule.slots.length === 0) && expected === "slot";
  const call = openBrackets(before).at(-1);
  return { kind: "inside", ...here, shaped, rule, around: path.slice(0, -1), section, expected, opens, call, last };
}

/** A word that no word of the language resembles. */
const anyWord = "zz";

function isInside({ kind, span, text }: LexToken, offset: number): boolean {
  if (offset <= span.start) return false;
  if (kind === "comment" || kind === "note") return offset <= span.end;
  if (kind !== "text") return false;
  return offset < span.end || (offset === span.end && !isClosed(text));
}

function isClosed(text: string): boolean {
  return text.startsWith('"""') ? text.length >= 6 && text.endsWith('"""') : /^"(?:[^"\\]|\\.)*"$/.test(text);
}

/** The tokens of the statement that the end of `prefix` stands in. */
function lineTokens(prefix: string): readonly LexToken[] {
  const tokens = lex(prefix).filter(({ kind }) => kind !== "comment" && kind !== "note");
  const begin = tokens.findLastIndex(({ kind }, index) => kind === "newline" && !goesOn(tokens, index));
  return tokens.slice(begin + 1).filter(({ kind }) => kind !== "newline");
}

/** A line goes on in the next one behind a comma, blank lines aside. */
function goesOn(tokens: readonly LexToken[], newline: number): boolean {
  return tokens[newline - 1]?.text === ",";
}

/** Brackets that neither the tokens before the cursor nor the rest of its line close. */
function closersFor(before: readonly LexToken[], after: string): string {
  const line = /^[^\r\n]*/.exec(after)?.[0] ?? "";
  let missing = openBrackets(before).length;
  for (const { text } of lex(line)) missing += text === "(" ? 1 : text === ")" ? -1 : 0;
  return ")".repeat(Math.max(0, missing));
}

/** For each bracket that is open at the end, the word before it. */
function openBrackets(tokens: readonly LexToken[]): readonly string[] {
  const open: string[] = [];
  for (const [index, { text, kind }] of tokens.entries()) {
    if (kind === "punctuation" && text === "(") open.push(tokens[index - 1]?.text ?? "");
    if (kind === "punctuation" && text === ")") open.pop();
  }
  return open;
}

function expectedAfter(last: LexToken | undefined, depth: number): Expected {
  if (last === undefined) return "slot";
  if (last.kind === "number") return "unit";
  if (last.kind === "operator-word") return last.text === "on" ? "view" : "value";
  if (last.text === "±" || last.text === "+-") return "nothing";
  if (last.kind === "operator") return last.text === "=" ? "slot" : "value";
  if (last.text === "(" || (last.text === "," && depth > 0)) return "value";
  return depth > 0 ? "nothing" : "slot";
}

interface Path {
  readonly top: readonly ShapedStatement[];
  readonly shaped: readonly ShapedStatement[];
}

/** The statements that hold the offset, the outermost first; what stands outside its statement's braces is looked for too. */
function pathTo(top: readonly ShapedStatement[], at: number): Path {
  const walk = (level: readonly ShapedStatement[]): readonly ShapedStatement[] => {
    for (const shaped of level) {
      const { span, block } = shaped.statement;
      const inner = walk(shaped.children);
      if (inner.length > 0) return [shaped, ...inner];
      const end = block?.open.start ?? span.end;
      if (span.start <= at && at < end) return [shaped];
    }
    return [];
  };
  return { top, shaped: walk(top) };
}

function phraseWith(phrases: readonly Phrase[], at: number): number {
  return phrases.findIndex(({ items }) => items.some(({ span }) => span.start <= at && at < span.end));
}

function itemStart(phrase: Phrase | undefined, at: number): number {
  return phrase?.items.find(({ span }) => span.start <= at && at < span.end)?.span.start ?? at;
}

function startOfLine(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text[at - 1] !== "\n" && text[at - 1] !== "\r") at -= 1;
  return at;
}
