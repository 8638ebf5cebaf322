/**
 * Collects what the parser reads of one statement: items to phrases, phrases to a line. A mistake spoils its phrase from the first
 * value on, and is told once a statement.
 */
import type { IToken, TokenType } from "chevrotain";
import { shown } from "./characters.ts";
import { wordOf } from "./items.ts";
import type { Problem } from "./problems.ts";
import { endOf, spanOf, T } from "./tokens.ts";
import type { Item, Phrase, Span, Word } from "./tree.ts";

/** A statement's line, its block not yet joined to it. */
export interface StatementLine {
  readonly kind: "statement";
  readonly word: Word;
  readonly phrases: readonly Phrase[];
  readonly open: Span | undefined;
  readonly span: Span;
  readonly broken: boolean;
}

export interface ClosingLine {
  readonly kind: "closing";
  readonly span: Span;
}

export type Line = StatementLine | ClosingLine;

/** What should stand before a token that came too early. */
const wanting: ReadonlyMap<TokenType, string> = new Map<TokenType, string>([
  [T.Unit, "a number before its unit"],
  [T.RParen, "an opening ("],
  [T.PlusMinus, "a number before the ±"],
]);

/** Items that mean the same whatever follows them in their phrase. */
const selfContained: ReadonlySet<Item["kind"]> = new Set<Item["kind"]>(["word", "text", "code", "date", "equals"]);

export class StatementMaker {
  readonly lines: Line[] = [];
  readonly problems: Problem[] = [];

  readonly #source: string;
  /** Whether a span has its problem already; one mistake is told once. */
  readonly #troubled: (span: Span) => boolean;
  #head: IToken | undefined;
  #phrases: Phrase[] = [];
  #broken = false;
  #found: Problem | undefined;
  #items: Item[] = [];
  #start = 0;
  #spoilt = false;
  /** How many items of the phrase stood before the mistake. */
  #sound = 0;

  constructor(source: string, troubled: (span: Span) => boolean) {
    this.#source = source;
    this.#troubled = troubled;
  }

  begin(head: IToken): void {
    this.#head = head;
    this.#phrases = [];
    this.#broken = head.payload === "broken";
    this.#found = undefined;
  }

  beginPhrase(start: number): void {
    this.#items = [];
    this.#start = start;
    this.#spoilt = false;
  }

  add(item: Item): void {
    this.#items.push(item);
  }

  /** A token that has no place here; a broken one has its problem already. */
  misplaced(token: IToken): void {
    if (token.tokenType === T.Broken) {
      this.#markSpoilt();
      return;
    }
    const expected = [wanting.get(token.tokenType) ?? `a value before ${token.image}`];
    this.fault({ slug: "unreadable", span: spanOf(token), found: shown(token.image), expected });
  }

  fault(problem: Problem): void {
    this.#markSpoilt();
    this.#found ??= problem;
  }

  /** Something should stand between two tokens, of which `next` may be the end of the line. */
  wanted(what: string, before: IToken, next: IToken): void {
    const atEnd = next.tokenType === T.Newline || next.tokenType === T.LBrace;
    const span = spanOf(atEnd ? before : next);
    const found = atEnd ? "the end of the line" : shown(next.image);
    if (next.tokenType === T.Broken) this.#markSpoilt();
    else this.fault({ slug: "unreadable", span, found, expected: [what] });
  }

  endPhrase(last: IToken): void {
    const end = endOf(last);
    const empty = this.#start >= end;
    const start = empty ? end : this.#start;
    if (empty && this.#phrases.length > 0) this.#missing(last);
    else if (this.#spoilt) this.#items = this.#kept(start, end);
    this.#broken ||= this.#spoilt;
    this.#phrases.push({ kind: "phrase", items: this.#items, span: { start, end } });
  }

  endClosing(brace: IToken): void {
    this.lines.push({ kind: "closing", span: spanOf(brace) });
  }

  end(open: IToken | undefined, end: number): void {
    if (this.#head === undefined) return;
    const word = wordOf(this.#head);
    const brace = open === undefined ? undefined : spanOf(open);
    const span = { start: word.span.start, end: brace?.end ?? Math.max(end, word.span.end) };
    if (this.#found !== undefined && !this.#troubled(span)) this.problems.push(this.#found);
    this.lines.push({ kind: "statement", word, phrases: this.#phrases, open: brace, span, broken: this.#broken });
  }

  #markSpoilt(): void {
    if (!this.#spoilt) this.#sound = this.#items.length;
    this.#spoilt = true;
  }

  /** Nothing stands behind a comma. */
  #missing(comma: IToken): void {
    const span = spanOf(comma);
    const repairs = [{ title: "Take the comma away", edits: [{ span, text: "" }] }];
    this.fault({ slug: "unreadable", span, found: ",", expected: ["something behind the comma"], repairs });
    this.#items = [{ kind: "broken", text: "", span: { start: span.end, end: span.end } }];
  }

  /** Words and texts before the mistake stay; from the first value on the phrase is one broken stretch. */
  #kept(start: number, end: number): Item[] {
    const sound = this.#items.slice(0, this.#sound);
    const firstValue = sound.findIndex(({ kind }) => !selfContained.has(kind));
    const kept = firstValue < 0 ? sound : sound.slice(0, firstValue);
    let from = kept.at(-1)?.span.end ?? start;
    while (from < end && /\s/.test(this.#source[from] ?? "")) from += 1;
    return [...kept, { kind: "broken", text: this.#source.slice(from, end), span: { start: from, end } }];
  }
}
