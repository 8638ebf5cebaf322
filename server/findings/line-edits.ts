/**
 * Edits of whole lines: a statement put in, taken out or moved with the notes over it, all as typed. Which statement and where to
 * is for the rules to say.
 */
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";

/** The whole lines a statement stands on, with the notes right over it and the line end after it. */
export function wholeLines(text: string, span: Span): Span {
  let start = lineStart(text, span.start);
  while (start > 0) {
    const above = lineStart(text, start - 1);
    if (!text.slice(above, start).trimStart().startsWith("##")) break;
    start = above;
  }
  return { start, end: lineEnd(text, span.end) };
}

/** `line` as a line of its own before the statement at `span` and its notes, indented as that one is. */
export function insertBefore(text: string, span: Span, line: string): Edit {
  const { start } = wholeLines(text, span);
  return { span: { start, end: start }, text: `${indentOf(text, span)}${line}${lineBreak(text)}` };
}

/** `line` as a line of its own after the statement at `span`, indented as that one is. */
export function insertAfter(text: string, span: Span, line: string): Edit {
  const { end } = wholeLines(text, span);
  return { span: { start: end, end }, text: `${openLine(text, end)}${indentOf(text, span)}${line}${lineBreak(text)}` };
}

/** Takes the statement at `span` out, with its notes and its line end. */
export function takeOut(text: string, span: Span): Edit {
  return { span: wholeLines(text, span), text: "" };
}

/** Moves statements, in the order given, before the one at `target`. */
export function moveBefore(text: string, moved: readonly Span[], target: Span): readonly Edit[] {
  const { start } = wholeLines(text, target);
  return moveTo(text, moved, start);
}

/** Moves statements, in the order given, behind the one at `target`. */
export function moveAfter(text: string, moved: readonly Span[], target: Span): readonly Edit[] {
  const { end } = wholeLines(text, target);
  return moveTo(text, moved, end);
}

/** One edit over all that moves, so that it means the same to whoever applies it. */
function moveTo(text: string, moved: readonly Span[], at: number): readonly Edit[] {
  const gone = moved.map((span) => wholeLines(text, span));
  const start = Math.min(at, ...gone.map((span) => span.start));
  const end = Math.max(at, ...gone.map((span) => span.end));
  const lines = gone.map((span) => closed(text, text.slice(span.start, span.end))).join("");
  const before = without(text, start, at, gone);
  const open = before === "" || isBreak(before.charAt(before.length - 1)) ? "" : lineBreak(text);
  return [{ span: { start, end }, text: before + open + lines + without(text, at, end, gone) }];
}

/** The text from `start` to `end` less these stretches. */
function without(text: string, start: number, end: number, gone: readonly Span[]): string {
  const sorted = gone.filter((span) => span.start >= start && span.end <= end).toSorted((a, b) => a.start - b.start);
  let rest = "";
  let from = start;
  for (const span of sorted) {
    rest += text.slice(from, span.start);
    from = span.end;
  }
  return rest + text.slice(from, end);
}

/** A line end first, when the place is behind a last line that has none. */
function openLine(text: string, at: number): string {
  return at > 0 && !isBreak(text.charAt(at - 1)) ? lineBreak(text) : "";
}

function closed(text: string, lines: string): string {
  return isBreak(lines.charAt(lines.length - 1)) ? lines : `${lines}${lineBreak(text)}`;
}

function indentOf(text: string, span: Span): string {
  return text.slice(lineStart(text, span.start), span.start).replace(/[^ \t].*$/s, "");
}

function lineStart(text: string, at: number): number {
  let start = at;
  // From the very end of a line end, the line meant is the one it closes.
  if (start > 0 && text.charAt(start) === "\n" && text.charAt(start - 1) === "\r") start -= 1;
  while (start > 0 && !isBreak(text.charAt(start - 1))) start -= 1;
  return start;
}

function lineEnd(text: string, at: number): number {
  let end = at;
  while (end < text.length && !isBreak(text.charAt(end))) end += 1;
  if (text.startsWith("\r\n", end)) return end + 2;
  return Math.min(end + 1, text.length);
}

/** The line end a text is written with. */
export function lineBreak(text: string): string {
  return text.includes("\r\n") ? "\r\n" : "\n";
}

function isBreak(character: string): boolean {
  return character === "\n" || character === "\r";
}
