/**
 * Where in a plan the cursor is, for completion: which block, which statement, which phrase and slot of it, and what has been
 * typed of the word there. It offers nothing itself.
 */
import type { ShapedStatement } from "../../grammar/shape.ts";
import type { Item, Phrase, Span } from "../../grammar/tree.ts";
import { rulesOf } from "../../grammar/vocabulary/blocks.ts";
import type { ClauseRule, Slot, StatementRule } from "../../grammar/vocabulary/rule.ts";
import type { Analysis } from "./analyse.ts";

interface Somewhere {
  readonly block: string;
  /** The typed part of the word at the cursor: what an offer replaces. */
  readonly typed: Span;
}

export type Cursor =
  | (Somewhere & { readonly kind: "statement"; readonly siblings: readonly ShapedStatement[] })
  | (Somewhere & {
      readonly kind: "inside";
      readonly shaped: ShapedStatement;
      readonly rule: StatementRule;
      /** Undefined in the head of the statement. */
      readonly clause: ClauseRule | undefined;
      /** The slots that may be filled next, in order; the first may be optional. */
      readonly slots: readonly Slot[];
      /** True where a clause word may begin: after a comma, or in a head that takes nothing. */
      readonly opens: boolean;
      /** A number that stands right before the cursor without its unit. */
      readonly bareNumber: boolean;
    })
  | { readonly kind: "nowhere" };

export function cursorAt(analysis: Analysis, offset: number): Cursor {
  const { text, parsed } = analysis;
  const inComment = parsed.tree.comments.some(({ span }) => span.start < offset && offset <= span.end);
  const lineStart = Math.max(text.lastIndexOf("\n", offset - 1), text.lastIndexOf("\r", offset - 1)) + 1;
  if (inComment || /^\s*#/.test(text.slice(lineStart, offset))) return { kind: "nowhere" };
  const typedStart = offset - (/[A-Za-z][A-Za-z0-9-]*$/.exec(text.slice(lineStart, offset))?.[0].length ?? 0);
  const typed = { start: typedStart, end: offset };
  const { block, siblings } = blockAt(analysis, offset);
  const shaped = siblings.find(({ statement }) => reaches(text, statement.span, statement.block?.open, offset));
  if (shaped === undefined || typedStart <= shaped.statement.word.span.start) {
    const before = text.slice(lineStart, typedStart);
    return before.trim() === "" ? { kind: "statement", block, typed, siblings } : { kind: "nowhere" };
  }
  const rule = shaped.rule ?? rulesOf(block).get(shaped.statement.word.name);
  return rule === undefined ? { kind: "nowhere" } : inside(text, block, typed, shaped, rule);
}

function inside(text: string, block: string, typed: Span, shaped: ShapedStatement, rule: StatementRule): Cursor {
  const { phrases, word } = shaped.statement;
  const at = phraseAt(text, phrases, word.span.end, typed.start);
  const items = (phrases[at]?.items ?? []).filter(({ span }) => span.start < typed.start && span.end <= typed.start);
  if (items.some(({ kind, span }) => kind === "text" && span.end === typed.start && typed.start === typed.end)) {
    return { kind: "nowhere" };
  }
  const opened = clauseOf(rule, phrases, at, typed.start);
  const own = opened !== undefined && opened.phrase === at ? items.slice(1) : items;
  const slots = opened === undefined ? rule.slots : opened.clause.slots;
  const continues = opened !== undefined ? opened.phrase !== at : at > 0;
  const last = items.at(-1);
  const bareNumber =
    last?.kind === "quantity" && last.unit === undefined && text.slice(last.span.end, typed.start).trim() === "";
  return {
    kind: "inside",
    block,
    typed,
    shaped,
    rule,
    clause: opened?.clause,
    slots: continues ? slots.slice(-1).filter(takesMany) : openSlots(slots, own),
    opens: items.length === 0 && (at > 0 || rule.slots.length === 0),
    bareNumber,
  };
}

function takesMany({ times }: Slot): boolean {
  return times === "many" || times === "any";
}

// The slots still open once these items stand there, a slot's lead word being an item of its own.
function openSlots(slots: readonly Slot[], items: readonly Item[]): readonly Slot[] {
  let left = items.filter((item) => !slots.some(({ lead }) => lead !== undefined && isWord(item, lead))).length;
  const open: Slot[] = [];
  for (const slot of slots) {
    if (left > 0 && !takesMany(slot)) left -= 1;
    else {
      open.push(slot);
      if (slot.times !== "optional" && slot.times !== "any") break;
    }
  }
  return open;
}

function isWord(item: Item, name: string): boolean {
  return item.kind === "word" && item.name === name;
}

function clauseOf(
  rule: StatementRule,
  phrases: readonly Phrase[],
  at: number,
  before: number,
): { readonly clause: ClauseRule; readonly phrase: number } | undefined {
  for (let phrase = Math.min(at, phrases.length - 1); phrase >= 0; phrase -= 1) {
    const first = phrases[phrase]?.items[0];
    const word = first?.kind === "range" ? undefined : first;
    if (word?.kind !== "word" || word.span.end >= before) continue;
    if (phrase === 0 && rule.slots.length > 0) continue;
    const clause = rule.clauses.find((each) => each.word === word.name);
    if (clause !== undefined) return { clause, phrase };
  }
  return undefined;
}

// Counts the commas between the word and the cursor that stand outside texts and brackets.
function phraseAt(text: string, phrases: readonly Phrase[], from: number, to: number): number {
  let commas = 0;
  for (let at = from; at < to; at += 1) {
    if (text[at] !== ",") continue;
    const inItem = phrases.some(({ items }) =>
      items.some(({ kind, span }) => kind !== "broken" && span.start <= at && at < span.end),
    );
    if (!inItem) commas += 1;
  }
  return commas;
}

// A statement reaches the cursor when it lies in its head line, or after it with nothing but blanks or a comma's line end between.
function reaches(text: string, span: Span, open: Span | undefined, offset: number): boolean {
  const end = open?.start ?? span.end;
  if (offset < span.start) return false;
  if (offset <= end) return true;
  if (open !== undefined) return false;
  const between = text.slice(end, offset);
  return /^[^\S\r\n]*(,\s*)?$/.test(between) && (!/[\r\n]/.test(between) || between.includes(","));
}

function blockAt(analysis: Analysis, offset: number): { block: string; siblings: readonly ShapedStatement[] } {
  let block = "file";
  let siblings: readonly ShapedStatement[] = analysis.meaning.shaped.statements;
  for (;;) {
    const inner = siblings.find(({ statement: { block: braces } }) => {
      return braces !== undefined && braces.open.end <= offset && offset <= (braces.close?.start ?? braces.span.end);
    });
    if (inner?.rule?.block === undefined) return { block, siblings };
    block = inner.rule.block;
    siblings = inner.children;
  }
}
