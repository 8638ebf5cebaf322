/**
 * Canonical layout of some lines, and of the line just finished while typing. Only edits are given that leave a text whose canonical
 * layout is the same as before, so that half of a move is never made.
 */
import { layout } from "../../grammar/layout.ts";
import { parse } from "../../grammar/parse.ts";
import type { Edit } from "../../grammar/problems.ts";
import type { Span, Statement } from "../../grammar/tree.ts";
import { edited } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import { formattingEdits, wholeLinesOf } from "./formatting.ts";
import { linesOf } from "./lines.ts";

/** Edits of the lines these spans touch; empty when the lines are tidy, or cannot be laid out by themselves. */
export function formattingEditsIn(analysis: Analysis, spans: readonly Span[]): readonly Edit[] {
  const all = (formattingEdits(analysis) ?? []).flatMap((edit) => lineByLine(analysis.text, edit));
  const lines = linesOf(analysis.text);
  const rows = spans.map(({ start, end }) => ({
    first: lines.position(start).line,
    last: lines.position(Math.max(start, end)).line,
  }));
  const touched = all.filter(({ span }) => {
    const first = lines.position(span.start).line;
    // An edit that ends at a line's start leaves that line alone.
    const last = lines.position(Math.max(span.start, span.end - 1)).line;
    return rows.some((row) => first <= row.last && row.first <= last);
  });
  if (touched.length === all.length) return touched;
  return layout(parse(edited(analysis.text, touched))) === layout(analysis.parsed) ? touched : [];
}

/**
 * After a line end the line before it is laid out, after a closing brace its own. Where the text cannot be laid out as a whole only
 * the indent is put right. The line the cursor has come to is left to the hand that types.
 */
export function formattingEditsTyped(analysis: Analysis, offset: number, typed: string): readonly Edit[] {
  const lines = linesOf(analysis.text);
  const { line } = lines.position(offset);
  const row = typed === "\n" ? line - 1 : line;
  if (row < 0 || (typed !== "\n" && typed !== "}")) return [];
  const start = lines.offset({ line: row, character: 0 });
  const span = { start, end: start + lines.text(row).length };
  if (formattingEdits(analysis) === undefined) return indentEdits(analysis, span);
  return formattingEditsIn(analysis, [span]).filter(
    (edit) => edit.span.end <= span.end + 1 && edit.span.start >= start,
  );
}

/** An edit of several lines as one for each of them that changes, where as many lines are put in as are taken out. */
function lineByLine(text: string, edit: Edit): readonly Edit[] {
  const [was, is] = [wholeLinesOf(text.slice(edit.span.start, edit.span.end)), wholeLinesOf(edit.text)];
  if (was.length !== is.length) return [edit];
  let at = edit.span.start;
  return was.flatMap((line, index) => {
    const start = at;
    at += line.length;
    return line === is[index] ? [] : [{ span: { start, end: at }, text: is[index] ?? "" }];
  });
}

function indentEdits({ text, parsed }: Analysis, line: Span): readonly Edit[] {
  const blanks = /^[ \t]*/.exec(text.slice(line.start, line.end))?.[0].length ?? 0;
  const first = line.start + blanks;
  const level = levelOf(parsed.tree.statements, first, 0);
  if (level === undefined) return [];
  const indent = "  ".repeat(level);
  return text.slice(line.start, first) === indent ? [] : [{ span: { start: line.start, end: first }, text: indent }];
}

/** How deep the statement lies that begins at the offset, or the one that the brace there closes. */
function levelOf(statements: readonly Statement[], at: number, level: number): number | undefined {
  for (const { span, block, notes } of statements) {
    if (span.start === at || block?.close?.start === at || notes.some((note) => note.span.start === at)) return level;
    const inner = block === undefined ? undefined : levelOf(block.statements, at, level + 1);
    if (inner !== undefined) return inner;
  }
  return undefined;
}
