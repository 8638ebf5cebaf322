/**
 * Reads one line against the rule of its statement: which phrase opens which clause, what stands in which slot, what does not
 * belong. It knows no statement by name; what the line lacks is asked in `shape-required.ts`, blocks are read in `shape.ts`.
 */
import { onceForEach } from "./once.ts";
import type { Problem } from "./problems.ts";
import { checkWhole } from "./shape-required.ts";
import { type Filling, fillSlots } from "./shape-slots.ts";
import { fits } from "./shape-values.ts";
import { beginsPhrase, changeWord, described, expectedIn, insert, meant, replace } from "./shape-words.ts";
import type { ShapedClause } from "./shaped.ts";
import type { Item, Span, Statement, Word } from "./tree.ts";
import type { ClauseRule, Slot, StatementRule } from "./vocabulary/rule.ts";

export interface Line {
  readonly slots: ReadonlyMap<string, readonly Item[]>;
  readonly clauses: readonly ShapedClause[];
  readonly problems: readonly Problem[];
}

/** What the phrases of a line are read into: its head, one clause, or a clause whose word is not known. */
export interface Section {
  readonly kind: "head" | "clause" | "unknown";
  /** The rule of a clause. */
  readonly rule: ClauseRule | undefined;
  readonly word: Word;
  slots: Line["slots"];
  /** Where the last thing of it ends. */
  end: number;
  /** Where the section before it ends. */
  readonly after: number;
  /** The list that a further phrase continues. */
  goesOn: Slot | undefined;
  /** The slots that could be filled next. */
  open: readonly Slot[];
  /** True once something in it was reported, so that what it drags along is not reported again. */
  faulty: boolean;
}

export interface Reader {
  readonly statement: Statement;
  readonly rule: StatementRule;
  readonly clauseRules: ReadonlyMap<string, ClauseRule>;
  readonly closing: ReadonlySet<string>;
  /** What is still to be read, the next one last. */
  readonly waiting: Things[];
  /** The head first, then the clauses in the order written. */
  readonly sections: Section[];
  readonly problems: Problem[];
  /** Where each slot of the head, by name, and each clause, by word, was first written, rightly or not. */
  readonly given: Map<string, Span>;
  /** True when a clause word was met that resembles none. */
  puzzled: boolean;
  readonly contentsFollow: boolean;
  /** How many commas are missing so far. */
  commasMissing: number;
}

/** A line that lacks more commas than this is no line of the language; the rest of it is not read, to keep the time in bounds. */
const mostCommasMissing = 50;

/** The things between two commas. */
type Things = readonly Item[];

/**
 * Reads the line of a statement, without its block. `contentsFollow` tells that what should stand in its braces stands in the lines
 * after it.
 */
export function readLine(statement: Statement, rule: StatementRule, contentsFollow = false): Line {
  const reader: Reader = {
    statement,
    rule,
    ...clausesOf(rule),
    waiting: statement.phrases.map(({ items }) => items).reverse(),
    sections: [],
    problems: [],
    given: new Map(),
    puzzled: false,
    contentsFollow,
    commasMissing: 0,
  };
  readHead(reader);
  for (let things = reader.waiting.pop(); things !== undefined; things = reader.waiting.pop())
    readThings(reader, things);
  checkWhole(reader);
  const head = reader.sections[0];
  return { slots: head?.slots ?? noSlots, clauses: shapedClauses(reader), problems: reader.problems };
}

const clausesOf = onceForEach((rule: StatementRule): Pick<Reader, "clauseRules" | "closing"> => {
  const clauseRules = new Map(rule.clauses.map((clause) => [clause.word, clause]));
  return { clauseRules, closing: new Set(clauseRules.keys()) };
});

function readHead(reader: Reader): void {
  const first = reader.waiting.at(-1);
  const section = open(reader, "head", reader.statement.word, undefined);
  const own = first === undefined || opensClauseAtOnce(reader, first) ? [] : first;
  if (own === first) reader.waiting.pop();
  fill(reader, section, reader.rule.slots, own);
}

/** A clause word right after the statement's own opens its clause, unless it stands alone where the head asks for a name. */
function opensClauseAtOnce(reader: Reader, things: Things): boolean {
  const first = things[0];
  if (first?.kind !== "word" || !reader.closing.has(first.name)) return false;
  const wanted = reader.rule.slots[0];
  return wanted === undefined || things.length > 1 || !fits(first, wanted.part);
}

/** Reads what stands between two commas. */
function readThings(reader: Reader, things: Things): void {
  const first = things[0];
  const section = reader.sections.at(-1);
  if (first === undefined || first.kind === "broken" || section === undefined) return;
  const rule = first.kind === "word" ? reader.clauseRules.get(first.name) : undefined;
  if (first.kind === "word" && rule !== undefined) {
    openClause(reader, first, rule, things.slice(1));
  } else if (section.goesOn !== undefined && continuesList(reader, section.goesOn, things)) {
    const { lead: _, ...list } = section.goesOn;
    fill(reader, section, [list], things);
  } else {
    refuse(reader, section, things, "comma");
  }
}

/** Whether things go on with the list before them, or begin with a clause word that is misspelt. */
function continuesList(reader: Reader, list: Slot, things: Things): boolean {
  const first = things[0];
  if (first?.kind !== "word" || reader.closing.size === 0) return true;
  const near = nearClause(reader, first);
  if (things.length === 1) return fits(first, list.part) || near === undefined;
  return (near === undefined || reader.given.has(near)) && things.every((item) => fits(item, list.part));
}

function openClause(reader: Reader, word: Word, rule: ClauseRule, things: Things): void {
  const section = open(reader, "clause", word, rule);
  if (!reader.given.has(rule.word)) reader.given.set(rule.word, word.span);
  fill(reader, section, rule.slots, things);
}

const noSlots: Line["slots"] = new Map();

function open(reader: Reader, kind: Section["kind"], word: Word, rule: ClauseRule | undefined): Section {
  const after = reader.sections.at(-1)?.end ?? word.span.start;
  const end = word.span.end;
  const section: Section = {
    kind,
    rule,
    word,
    slots: noSlots,
    end,
    after,
    goesOn: undefined,
    open: [],
    faulty: false,
  };
  reader.sections.push(section);
  return section;
}

/** Fills the slots of a section, with what stands behind the next comma too where that comma is too much. */
function fill(reader: Reader, section: Section, slots: readonly Slot[], things: Things): void {
  const filling = fillSlots(slots, things, reader.closing);
  const behind = behindComma(reader, filling, things);
  if (behind !== undefined) {
    reportComma(reader, section, filling, things, behind);
    reader.waiting.pop();
    fill(reader, section, slots, [...things, ...behind]);
    return;
  }
  take(reader, section, filling, things);
  report(reader, section, filling);
  leave(reader, section, filling);
}

/** Where something is missing and stands right behind the next comma, that comma is the one mistake. */
function behindComma(reader: Reader, filling: Filling, things: Things): Things | undefined {
  const behind = reader.waiting.at(-1);
  const next = behind?.[0];
  if (filling.missing === undefined || filling.left.length > 0 || things.length === 0 || next === undefined) {
    return undefined;
  }
  if (next.kind === "word" && reader.closing.has(next.name)) return undefined;
  return fits(next, filling.missing.slot.part) ? behind : undefined;
}

function reportComma(reader: Reader, section: Section, filling: Filling, things: Things, behind: Things): void {
  const start = things.at(-1)?.span.end ?? section.end;
  const span: Span = { start, end: behind[0]?.span.start ?? start };
  const expected = filling.missing?.expected ?? [];
  const repairs = [replace("Take the comma away", span, " ")];
  reader.problems.push({ slug: "misplaced", span, found: ",", expected, inside: section.word.name, repairs });
}

function take(reader: Reader, section: Section, filling: Filling, things: Things): void {
  section.slots = section.slots === noSlots ? filling.filled : joined(section.slots, filling.filled);
  const read = things.length - filling.left.length;
  section.end = things[read - 1]?.span.end ?? section.end;
  section.goesOn = filling.goesOn;
  section.open = filling.open;
  if (section.kind !== "head") return;
  const span: Span = { start: things[0]?.span.start ?? section.word.span.start, end: section.end };
  for (const name of filling.tried) if (!reader.given.has(name)) reader.given.set(name, span);
}

function joined(slots: Line["slots"], more: Line["slots"]): Line["slots"] {
  const all = new Map(slots);
  for (const [name, held] of more) all.set(name, [...(all.get(name) ?? []), ...held]);
  return all;
}

function report(reader: Reader, section: Section, filling: Filling): void {
  const inside = section.word.name;
  for (const problem of filling.problems) reader.problems.push({ ...problem, inside });
  if (filling.missing !== undefined) {
    const { expected } = filling.missing;
    reader.problems.push({ slug: "missing", span: section.word.span, expected, inside });
  }
  section.faulty ||= filling.problems.length > 0 || filling.missing !== undefined;
}

/** Deals with what fits no slot: a clause that lacks its comma is read next, anything else is refused. */
function leave(reader: Reader, section: Section, filling: Filling): void {
  const first = filling.left[0];
  if (first === undefined) return;
  if (first.kind !== "word" || !reader.closing.has(first.name)) {
    refuse(reader, section, filling.left, "none");
    return;
  }
  const repairs = [insert("Write a comma before it", section.end, ",")];
  reader.problems.push({ slug: "missing", span: first.span, expected: [","], inside: section.word.name, repairs });
  reader.commasMissing += 1;
  if (reader.commasMissing < mostCommasMissing) reader.waiting.push(filling.left);
}

/** Things that belong nowhere: a clause word that is not known, or something too much. What a fault drags along is let be. */
function refuse(reader: Reader, section: Section, things: Things, cut: "comma" | "none"): void {
  const first = things[0];
  if (first === undefined || first.kind === "broken") return;
  const silent = section.faulty || section.kind === "unknown";
  if (first.kind === "word" && reader.closing.size > 0) {
    const near = nearClause(reader, first);
    if (near !== undefined || !silent) refuseWord(reader, first, near);
    return;
  }
  if (silent) return;
  const span: Span = { start: first.span.start, end: things.at(-1)?.span.end ?? first.span.end };
  const clause = clauseFor(reader, things);
  if (clause !== undefined) {
    lackWord(reader, section, clause, span, cut);
    return;
  }
  const expected = whatMayFollow(reader, section);
  reader.problems.push({ slug: "misplaced", span, found: described(first), expected, inside: section.word.name });
  section.faulty = true;
}

/** The clause whose word is missing before these things: one that should stand and stands nowhere in the line. */
function clauseFor(reader: Reader, things: Things): ClauseRule | undefined {
  // Also further on than what is read so far.
  const stands = (word: string): boolean => reader.given.has(word) || beginsPhrase(reader.statement, word);
  const ways = reader.rule.alternatives?.ways ?? [];
  const begun = ways.filter((way) => way.some(stands));
  const wanted = begun.length === 0 || reader.rule.alternatives?.together === true ? ways.flat() : begun.flat();
  return reader.rule.clauses.find(({ word, required, slots }) => {
    if (stands(word) || slots.length === 0 || (required !== true && !wanted.includes(word))) return false;
    const { left, missing, problems } = fillSlots(slots, things, reader.closing);
    return left.length === 0 && missing === undefined && problems.length === 0;
  });
}

function lackWord(reader: Reader, section: Section, { word }: ClauseRule, span: Span, cut: "comma" | "none"): void {
  reader.given.set(word, span);
  const put = cut === "comma" ? insert("", span.start, `${word} `) : insert("", section.end, `, ${word}`);
  const repairs = [{ ...put, title: `Write \`${word}\` before it` }];
  reader.problems.push({ slug: "missing", span, expected: [word], inside: reader.statement.word.name, repairs });
}

function refuseWord(reader: Reader, word: Word, near: string | undefined): void {
  const before = reader.sections.at(-1);
  const expected = before === undefined ? [] : whatMayFollow(reader, before);
  const problem: Problem = {
    slug: "unknown-word",
    span: word.span,
    found: word.name,
    expected,
    inside: reader.statement.word.name,
  };
  open(reader, "unknown", word, undefined);
  if (near === undefined) {
    reader.problems.push(problem);
    reader.puzzled = true;
    return;
  }
  reader.problems.push({ ...problem, near, repairs: [changeWord(word, near)] });
  if (!reader.given.has(near)) reader.given.set(near, word.span);
}

function whatMayFollow(reader: Reader, section: Section): readonly string[] {
  const inSection = section.open.flatMap(expectedIn);
  const clauses = clausesLeft(reader.rule, reader.given).map((clause) => clause.word);
  const all = [...inSection, ...clauses];
  return all.length > 0 ? all : ["the end of the line"];
}

function nearClause(reader: Reader, word: Word): string | undefined {
  return meant(word.name, [...reader.closing]);
}

/** The clauses of a statement that are not written yet, or that may be written again. */
function clausesLeft(rule: StatementRule, written: { readonly has: (word: string) => boolean }): readonly ClauseRule[] {
  return rule.clauses.filter((clause) => clause.repeats === true || !written.has(clause.word));
}

function shapedClauses(reader: Reader): readonly ShapedClause[] {
  return reader.sections.flatMap(({ rule, word, slots, end }) =>
    rule === undefined ? [] : [{ rule, word, slots, span: { start: word.span.start, end } }],
  );
}
