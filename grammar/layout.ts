/**
 * The canonical layout: two spaces a level, one statement a line, a space between number and unit, long lines broken after a comma.
 * Digits, texts, notes and comments stay as typed. Says no where anything could not be read, and where its own result, read
 * again, would not mean the same.
 */

import { onNewLine } from "./braces.ts";
import { byteOrderMark } from "./characters.ts";
import { type Parsed, parse } from "./parse.ts";
import { type Chunk, chunksOf } from "./print.ts";
import type { Problem } from "./problems.ts";
import { scan, T } from "./tokens.ts";
import type { Block, Comment, Note, Statement, Tree } from "./tree.ts";

const widest = 100;

/** The text in canonical layout, or undefined when it must be left as it is: a broken statement, a brace too many or too few. */
export function layout(parsed: Parsed): string | undefined {
  if (parsed.problems.some(forbids) || parsed.tree.statements.some(isUnsound)) return undefined;
  const ordered = editionFirst(parsed);
  if (ordered === undefined) return undefined;
  const text = written(ordered);
  const again = parse(text);
  return meaning(again.tree) === meaning(ordered.tree) ? text : undefined;
}

function forbids(problem: Problem): boolean {
  if (problem.mild === true || problem.slug === "note-adrift") return false;
  return !(problem.slug === "unreadable" && problem.expected?.[0] === onNewLine);
}

function isUnsound(statement: Statement): boolean {
  if (statement.broken) return true;
  const { block } = statement;
  return block !== undefined && (block.close === undefined || block.statements.some(isUnsound));
}

/** What must be the same before and after: everything but places, and the spelling of units. Comments count in any order. */
function meaning(tree: Tree): string {
  const comments = tree.comments.map(({ text }) => text.trimEnd()).sort();
  return JSON.stringify([tree.statements, tree.adrift, comments], (key, value: unknown) => {
    if (key === "span" || key === "open" || key === "close") return undefined;
    return isUnit(value) ? value.unit : value;
  });
}

function isUnit(value: unknown): value is { readonly unit: string } {
  return typeof value === "object" && value !== null && "unit" in value && !("kind" in value);
}

/** The edition stands in the first line; where it does not, its line is moved there. Undefined when it cannot be lifted out. */
function editionFirst(parsed: Parsed): Parsed | undefined {
  const { text, tree } = parsed;
  const index = tree.statements.findIndex(({ word }) => word.name === "isthmus");
  const edition = tree.statements[index];
  if (index <= 0 || edition === undefined) return parsed;
  const bom = text.startsWith(byteOrderMark) ? 1 : 0;
  const start = lineStart(text, edition.notes[0]?.span.start ?? edition.span.start);
  const end = lineEnd(text, edition.span.end);
  const own = text.slice(start, end);
  const rest = text.slice(end).replace(/^(?:\r\n|\n|\r)/, "");
  const moved = `${text.slice(0, bom)}${own}${lineBreak(text)}${text.slice(bom, start)}${rest}`;
  const again = parse(moved);
  const others = tree.statements.filter((statement) => statement !== edition);
  const expected = meaning({ ...tree, statements: [edition, ...others] });
  return meaning(again.tree) === expected && !again.problems.some(forbids) ? again : undefined;
}

function lineStart(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text[at - 1] !== "\n" && text[at - 1] !== "\r") at -= 1;
  return text.startsWith(byteOrderMark) ? Math.max(1, at) : at;
}

function lineEnd(text: string, offset: number): number {
  let at = offset;
  while (at < text.length && text[at] !== "\n" && text[at] !== "\r") at += 1;
  return at;
}

/** The line end the text uses first, texts in quotes left aside; they keep their own. */
function lineBreak(text: string): string {
  return scan(text).find(({ tokenType }) => tokenType === T.Newline)?.image ?? "\n";
}

/** The page as it is being written. */
interface Page {
  readonly text: string;
  readonly rows: string[];
  readonly comments: readonly Comment[];
  /** Index of the next comment to be written. */
  comment: number;
  /** How far the text has been written out. */
  end: number;
  /** The last row opened a block, or nothing is written yet: no blank line may follow. */
  tight: boolean;
}

function written({ text, tree }: Parsed): string {
  const page: Page = { text, rows: [], comments: tree.comments, comment: 0, end: 0, tight: true };
  writeMembers(page, tree, 0);
  flushComments(page, text.length, 0);
  const breaks = lineBreak(text);
  const bom = text.startsWith(byteOrderMark) ? byteOrderMark : "";
  return page.rows.length === 0 ? bom : `${bom}${page.rows.join(breaks)}${breaks}`;
}

function writeMembers(page: Page, parent: Pick<Block, "statements" | "adrift">, level: number): void {
  for (const statement of parent.statements) writeStatement(page, statement, level);
  for (const note of parent.adrift) writeNote(page, note, level);
}

function writeStatement(page: Page, statement: Statement, level: number): void {
  for (const note of statement.notes) writeNote(page, note, level);
  const { word, block } = statement;
  flushComments(page, word.span.start, level);
  blankLine(page, word.span.start);
  writeLine(page, chunksOf(statement), level);
  if (block === undefined) return;
  page.end = block.open.end;
  page.tight = true;
  writeMembers(page, block, level + 1);
  const { close } = block;
  if (close === undefined) return;
  flushComments(page, close.start, level + 1);
  page.rows.push(`${indent(level)}}`);
  page.end = close.end;
  page.tight = false;
}

function writeNote(page: Page, note: Note, level: number): void {
  flushComments(page, note.span.start, level);
  blankLine(page, note.span.start);
  page.rows.push(`${indent(level)}## ${note.text}`.trimEnd().concat(trailingBlanks(note.text)));
  page.end = note.span.end;
  page.tight = false;
}

/** Blanks at the end of a note are Markdown's line break and stay; a note of blanks alone has none. */
function trailingBlanks(text: string): string {
  return text.trim() === "" ? text.slice(0, 0) : text.slice(text.trimEnd().length);
}

function indent(level: number): string {
  return "  ".repeat(level);
}

/** One blank line where there was at least one; none at the start of the file or of a block. */
function blankLine(page: Page, start: number): void {
  if (page.tight) return;
  const breaks = page.text.slice(page.end, start).match(/\r\n|\n|\r/g)?.length ?? 0;
  if (breaks > 1) page.rows.push("");
}

/** Writes the comments that stand before `start`: on the row they stood behind, or on rows of their own. */
function flushComments(page: Page, start: number, level: number): void {
  for (let next = page.comments[page.comment]; next !== undefined; next = page.comments[page.comment]) {
    if (next.span.start >= start) return;
    writeComment(page, next, level);
  }
}

function writeComment(page: Page, comment: Comment, level: number): void {
  const text = comment.text.trimEnd();
  if (comment.alone || page.rows.length === 0) {
    blankLine(page, comment.span.start);
    page.rows.push(`${indent(level)}${text}`);
    page.tight = false;
  } else {
    page.rows.push(`${page.rows.pop() ?? ""} ${text}`);
  }
  page.end = comment.span.end;
  page.comment += 1;
}

/** Fills rows with chunks; a row ends after a comma when the next chunk is too wide for it or a comment stands between. */
function writeLine(page: Page, chunks: readonly Chunk[], level: number): void {
  const further = `${indent(level)}    `;
  let row = indent(level);
  chunks.forEach((chunk, index) => {
    const first = index === 0;
    const commented = !first && (page.comments[page.comment]?.span.start ?? chunk.end) < chunk.start;
    if (commented || (!first && widthAfter(row, chunk.text) > widest)) {
      page.rows.push(row);
      if (commented) continueComments(page, chunk.start, further);
      row = `${further}${chunk.text}`;
    } else {
      row = first ? `${row}${chunk.text}` : `${row} ${chunk.text}`;
    }
    page.end = chunk.end;
  });
  page.rows.push(row);
  page.tight = false;
}

/** Comments within a statement; a blank line there would end it, so none is written. */
function continueComments(page: Page, start: number, further: string): void {
  for (let next = page.comments[page.comment]; next !== undefined; next = page.comments[page.comment]) {
    if (next.span.start >= start) return;
    const text = next.text.trimEnd();
    page.rows.push(next.alone ? `${further}${text}` : `${page.rows.pop() ?? ""} ${text}`);
    page.comment += 1;
  }
}

/** Width of the line that a chunk would end in; a block text counts from its last line, or to its first. */
function widthAfter(row: string, text: string): number {
  const line = row.slice(Math.max(row.lastIndexOf("\n"), row.lastIndexOf("\r")) + 1);
  return line.length + 1 + (text.split(/[\r\n]/, 1)[0] ?? "").length;
}
