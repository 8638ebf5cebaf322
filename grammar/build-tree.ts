/**
 * Puts lines together to nested blocks. Braces are trusted first; where they do not come out even, the table of which statement
 * may stand in which block and the indentation decide, so that a missing or extra brace costs its own block at most.
 */
import { deepest, type PlacedNote } from "./line-state.ts";
import { nearest } from "./nearest.ts";
import type { Problem } from "./problems.ts";
import type { Line, StatementLine } from "./statement-maker.ts";
import type { Note, Span, Statement } from "./tree.ts";
import type { BlockRule } from "./vocabulary/rule.ts";

export type BlockRules = ReadonlyMap<string, BlockRule>;

/** For each block the words that may stand in it, each with the block it opens. */
export type Places = ReadonlyMap<string, ReadonlyMap<string, string | undefined>>;

export function placesOf(rules: BlockRules): Places {
  const words = (rule: BlockRule) =>
    rule.statements.map(({ word, block }): [string, string | undefined] => [word, block]);
  return new Map([...rules.values()].map((rule) => [rule.name, new Map(words(rule))]));
}

/** A readonly node while it is being built. */
type Growing<T> = { -readonly [K in keyof T]: T[K] };

interface Opened {
  /** Undefined for the file itself. */
  readonly statement: Growing<Statement> | undefined;
  /** Name of the block in the tables; undefined when its word is not known. */
  readonly block: string | undefined;
  readonly statements: Statement[];
  readonly adrift: Note[];
  readonly indent: number;
  /** The last block closed directly in this one, which an extra brace may have closed too early. */
  closed: Opened | undefined;
}

interface Builder {
  readonly text: string;
  readonly places: Places;
  readonly problems: Problem[];
  readonly stack: Opened[];
  readonly file: Opened;
  /** Closing minus opening braces in the lines still to come. */
  surplus: number;
  /** Notes of the statement that was put in its place last. */
  notes: Note[] | undefined;
  /** Above 0 while a block too deep to be read is passed over. */
  passing: number;
}

export interface Built {
  readonly statements: readonly Statement[];
  /** Notes behind the last statement of the file. */
  readonly adrift: readonly Note[];
  readonly problems: readonly Problem[];
}

export function buildTree(text: string, lines: readonly Line[], notes: readonly PlacedNote[], places: Places): Built {
  const file = opened(undefined, "file", -1);
  const surplus = lines.reduce((sum, line) => sum + weight(line), 0);
  const builder: Builder = { text, places, problems: [], stack: [file], file, surplus, notes: undefined, passing: 0 };
  let note = 0;
  for (const line of lines) {
    const own: Note[] = [];
    for (let next = notes[note]; next !== undefined && next.note.span.start < line.span.end; next = notes[note]) {
      if (next.astray) keepAstray(builder, next.note, line, own);
      else own.push(next.note);
      note += 1;
    }
    builder.surplus -= weight(line);
    if (builder.passing > 0) pass(builder, line);
    else if (line.kind === "closing") close(builder, line.span, own);
    else place(builder, line, own);
  }
  for (const { note: next, astray } of notes.slice(note)) {
    if (astray) keepAstray(builder, next, undefined, top(builder).adrift);
    else top(builder).adrift.push(next);
  }
  while (builder.stack.length > 1) closeMissing(builder, undefined);
  const notesAdrift = adriftIn(file.statements).concat(file.adrift);
  const problems = [...builder.problems, ...notesAdrift.map(adriftProblem)];
  return { statements: file.statements, adrift: file.adrift, problems };
}

/** A note in the wrong place belongs to the statement in which or behind which it stands. */
function keepAstray(builder: Builder, note: Note, line: Line | undefined, own: Note[]): void {
  const inside = line !== undefined && note.span.start >= line.span.start;
  if (inside || builder.notes === undefined) own.push(note);
  else builder.notes.push(note);
}

function adriftIn(statements: readonly Statement[]): Note[] {
  return statements.flatMap(({ block }) =>
    block === undefined ? [] : [...adriftIn(block.statements), ...block.adrift],
  );
}

function adriftProblem(note: Note): Problem {
  return { slug: "note-adrift", span: note.span, expected: ["a statement after the note"] };
}

function weight(line: Line): number {
  if (line.kind === "closing") return 1;
  return line.open === undefined ? 0 : -1;
}

function opened(statement: Growing<Statement> | undefined, block: string | undefined, indent: number): Opened {
  return { statement, block, statements: [], adrift: [], indent, closed: undefined };
}

function top(builder: Builder): Opened {
  return builder.stack.at(-1) ?? builder.file;
}

function fits(builder: Builder, block: Opened, word: string): boolean {
  return block.block !== undefined && builder.places.get(block.block)?.has(word) === true;
}

function place(builder: Builder, line: StatementLine, notes: Note[]): void {
  if (!fits(builder, top(builder), line.word.name)) fitBlocks(builder, line);
  const parent = top(builder);
  const { phrases, broken, span } = line;
  const statement: Growing<Statement> = {
    kind: "statement",
    notes,
    word: line.word,
    phrases,
    block: undefined,
    span,
    broken,
  };
  parent.statements.push(statement);
  builder.notes = notes;
  parent.closed = undefined;
  if (line.open !== undefined) open(builder, statement, line.open);
}

/**
 * Opens, closes or reopens blocks so that the statement stands where it may, as far as the braces speak for it; without that it is
 * a statement in the wrong place, and no block is touched.
 */
function fitBlocks(builder: Builder, line: StatementLine): void {
  const word = line.word.name;
  /** Braces to come that close neither this statement's block nor one inside it. */
  const closing = builder.surplus - (line.open === undefined ? 0 : 1);
  if (openMissing(builder, word, closing)) return;
  closeInner(builder, line, closing);
  if (!fits(builder, top(builder), word)) reopen(builder, word, closing);
}

/** Opens the block of the statement before, when its brace was left out: this one fits there and one brace too many is to come. */
function openMissing(builder: Builder, word: string, closing: number): boolean {
  const parent = top(builder);
  const before: Growing<Statement> | undefined = parent.statements.at(-1);
  if (before === undefined || before.block !== undefined || parent.block === undefined) return false;
  const name = builder.places.get(parent.block)?.get(before.word.name);
  if (name === undefined || builder.places.get(name)?.has(word) !== true) return false;
  if (closing < builder.stack.length) return false;
  const at = { start: before.span.end, end: before.span.end };
  open(builder, before, at);
  builder.problems.push({
    slug: "unreadable",
    span: at,
    found: word,
    expected: ["{"],
    inside: before.word.name,
    repairs: [{ title: "Add the opening brace", edits: [{ span: at, text: " {" }] }],
  });
  return true;
}

/** Closes inner blocks up to one where the statement may stand, when the braces or the indentation say that one is missing. */
function closeInner(builder: Builder, line: StatementLine, closing: number): void {
  const { stack } = builder;
  const target = stack.findLastIndex((block) => fits(builder, block, line.word.name));
  if (target < 0) return;
  const inner = stack[target + 1];
  const depth = stack.length - 1;
  const missing = closing < depth;
  const outdented = inner !== undefined && indentOf(builder.text, line.span.start) <= inner.indent;
  if (!missing && !outdented) return;
  while (stack.length - 1 > target) closeMissing(builder, line);
}

/** Takes an extra brace back: when the statement may stand in the block just closed and more braces are to come than are open. */
function reopen(builder: Builder, word: string, closing: number): void {
  const path: Opened[] = [];
  for (let block = top(builder).closed; block !== undefined; block = block.closed) {
    path.push(block);
    if (!fits(builder, block, word)) continue;
    if (closing - (builder.stack.length - 1) < path.length) return;
    for (const again of path) {
      const brace = again.statement?.block?.close;
      if (brace !== undefined) builder.problems.push(extra(brace));
      builder.stack.push(again);
    }
    return;
  }
}

function extra(brace: Span): Problem {
  return {
    slug: "unreadable",
    span: brace,
    found: "}",
    expected: ["no closing brace here"],
    repairs: [{ title: "Take the brace away", edits: [{ span: brace, text: "" }] }],
  };
}

function open(builder: Builder, statement: Growing<Statement>, brace: Span): void {
  const { stack } = builder;
  const block = opened(statement, blockOf(builder, statement.word.name), indentOf(builder.text, statement.span.start));
  finish(block, brace, undefined, brace.end);
  if (stack.length > deepest) {
    builder.problems.push({ slug: "too-deep", span: brace, found: "{", expected: [`at most ${deepest} levels`] });
    statement.broken = true;
    builder.passing = 1;
  }
  stack.push(block);
}

/** Passes over the lines of a block that is too deep to be read. */
function pass(builder: Builder, line: Line): void {
  builder.passing -= weight(line);
  const { statement } = top(builder);
  if (statement?.block !== undefined) finish(top(builder), statement.block.open, undefined, line.span.end);
  if (builder.passing === 0) close(builder, line.span, []);
}

/** The block a word opens here; a word in the wrong place opens what it would in its own, a mistyped one what is near. */
function blockOf(builder: Builder, word: string): string | undefined {
  const parent = top(builder).block;
  const here = parent === undefined ? undefined : builder.places.get(parent);
  if (here?.has(word) === true) return here.get(word);
  for (const words of builder.places.values()) {
    const block = words.get(word);
    if (block !== undefined) return block;
  }
  const openers = [...(here ?? [])].filter(([, block]) => block !== undefined).map(([name]) => name);
  const near = nearest(word, openers);
  return near === undefined ? undefined : here?.get(near);
}

/** Writes the block into its statement, as far as it is known. */
function finish(block: Opened, open: Span, close: Span | undefined, end: number): void {
  const { statement, statements, adrift } = block;
  if (statement === undefined) return;
  statement.block = { kind: "block", statements, open, close, adrift, span: { start: open.start, end } };
  statement.span = { start: statement.span.start, end };
}

function close(builder: Builder, brace: Span, notes: readonly Note[]): void {
  const block = top(builder);
  block.adrift.push(...notes);
  const open = block.statement?.block?.open;
  if (open === undefined) {
    builder.problems.push(extra(brace));
    return;
  }
  builder.stack.pop();
  finish(block, open, brace, brace.end);
  top(builder).closed = block;
}

/** Closes the innermost block without a brace and tells where the brace is missing. */
function closeMissing(builder: Builder, next: StatementLine | undefined): void {
  const block = builder.stack.pop();
  const open = block?.statement?.block?.open;
  if (block === undefined || open === undefined) return;
  const end = Math.max(open.end, block.statements.at(-1)?.span.end ?? 0, block.adrift.at(-1)?.span.end ?? 0);
  finish(block, open, undefined, end);
  const at = endOfLine(builder.text, end);
  const indent = " ".repeat(Math.max(0, block.indent));
  builder.problems.push({
    slug: "unreadable",
    span: { start: end, end },
    found: next === undefined ? "the end of the text" : next.word.name,
    expected: ["}"],
    inside: block.statement?.word.name ?? "",
    also: open,
    repairs: [{ title: "Add the closing brace", edits: [{ span: { start: at, end: at }, text: `\n${indent}}` }] }],
  });
}

function indentOf(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && (text[at - 1] === " " || text[at - 1] === "\t")) at -= 1;
  return offset - at;
}

function endOfLine(text: string, offset: number): number {
  let at = offset;
  while (at < text.length && text[at] !== "\n" && text[at] !== "\r") at += 1;
  return at;
}
