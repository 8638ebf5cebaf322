/** Canonical layout as edits: only the lines that change are replaced, so that cursors and marks elsewhere stay. */
import { layout } from "../../grammar/layout.ts";
import type { Edit } from "../../grammar/problems.ts";
import type { Analysis } from "./analyse.ts";

/** No edits when the text is tidy already; undefined when it cannot be laid out without risk to its meaning. */
export function formattingEdits(analysis: Analysis): readonly Edit[] | undefined {
  const text = layout(analysis.parsed);
  if (text === undefined) return undefined;
  return differences(linesOf(analysis.text), linesOf(text));
}

/** One edit for each run of changed lines; one for all of them where lines were added or taken away. */
function differences(old: readonly string[], next: readonly string[]): readonly Edit[] {
  const shorter = Math.min(old.length, next.length);
  let head = 0;
  while (head < shorter && old[head] === next[head]) head += 1;
  let tail = 0;
  while (tail < shorter - head && old[old.length - 1 - tail] === next[next.length - 1 - tail]) tail += 1;
  const was = old.slice(head, old.length - tail);
  const is = next.slice(head, next.length - tail);
  const start = lengthOf(old.slice(0, head));
  if (was.length !== is.length) return [{ span: { start, end: start + lengthOf(was) }, text: is.join("") }];
  return lineByLine(start, was, is);
}

function lineByLine(start: number, was: readonly string[], is: readonly string[]): readonly Edit[] {
  const edits: Edit[] = [];
  let at = start;
  for (const [index, line] of was.entries()) {
    const text = is[index] ?? "";
    const end = at + line.length;
    const last = edits.at(-1);
    if (line !== text && last?.span.end === at) {
      edits[edits.length - 1] = { span: { start: last.span.start, end }, text: last.text + text };
    } else if (line !== text) edits.push({ span: { start: at, end }, text });
    at = end;
  }
  return edits;
}

/** Each line with its end. */
function linesOf(text: string): readonly string[] {
  return text.match(/[^\r\n]*(?:\r\n|\n|\r)|[^\r\n]+$/g) ?? [];
}

function lengthOf(lines: readonly string[]): number {
  return lines.reduce((sum, { length }) => sum + length, 0);
}
