/** Canonical layout as edits: only the lines that change are replaced, so that cursors and marks elsewhere stay. */
import { layout } from "../../grammar/layout.ts";
import type { Edit } from "../../grammar/problems.ts";
import type { Analysis } from "./analyse.ts";

/** No edits when the text is tidy already; undefined when it cannot be laid out without risk to its meaning. */
export function formattingEdits(analysis: Analysis): readonly Edit[] | undefined {
  const text = layout(analysis.parsed);
  if (text === undefined) return undefined;
  return differences(analysis.text, text);
}

/** One edit for each run of changed lines. */
export function differences(before: string, after: string): readonly Edit[] {
  const [old, next] = [wholeLinesOf(before), wholeLinesOf(after)];
  const shorter = Math.min(old.length, next.length);
  let head = 0;
  while (head < shorter && old[head] === next[head]) head += 1;
  let tail = 0;
  while (tail < shorter - head && old[old.length - 1 - tail] === next[next.length - 1 - tail]) tail += 1;
  const was = old.slice(head, old.length - tail);
  const is = next.slice(head, next.length - tail);
  const start = lengthOf(old.slice(0, head));
  if (was.length === is.length) return lineByLine(start, was, is);
  const edits: Edit[] = [];
  let [from, to, at] = [0, 0, start];
  for (const [old, now] of [...sameWords(was, is), [was.length, is.length] as const]) {
    const gone = was.slice(from, old);
    const end = at + lengthOf(gone);
    const text = is.slice(to, now).join("");
    if (gone.join("") !== text) edits.push({ span: { start: at, end }, text });
    const [line, put] = [was[old] ?? "", is[now] ?? ""];
    at = end + line.length;
    if (line !== put) edits.push({ span: { start: end, end: at }, text: put });
    [from, to] = [old + 1, now + 1];
  }
  return edits;
}

/** Pairs of lines that differ in blanks at most: the most there are, in the order of both; none in texts too long to compare so. */
function sameWords(was: readonly string[], is: readonly string[]): readonly (readonly [number, number])[] {
  if (was.length * is.length > mostPairs) return [];
  const [left, right] = [was, is].map((lines) => lines.map((line) => line.replace(/\s+/g, ""))) as [string[], string[]];
  const width = right.length + 1;
  const best = new Uint16Array((left.length + 1) * width);
  const reach = (row: number, column: number): number => best[row * width + column] ?? 0;
  for (let row = left.length - 1; row >= 0; row -= 1) {
    for (let column = right.length - 1; column >= 0; column -= 1) {
      best[row * width + column] =
        left[row] === right[column]
          ? reach(row + 1, column + 1) + 1
          : Math.max(reach(row + 1, column), reach(row, column + 1));
    }
  }
  const pairs: [number, number][] = [];
  for (let [row, column] = [0, 0]; row < left.length && column < right.length; ) {
    if (left[row] === right[column]) {
      pairs.push([row, column]);
      row += 1;
      column += 1;
    } else if (reach(row + 1, column) >= reach(row, column + 1)) row += 1;
    else column += 1;
  }
  return pairs;
}

const mostPairs = 4_000_000;

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
export function wholeLinesOf(text: string): readonly string[] {
  return text.match(/[^\r\n]*(?:\r\n|\n|\r)|[^\r\n]+$/g) ?? [];
}

function lengthOf(lines: readonly string[]): number {
  return lines.reduce((sum, { length }) => sum + length, 0);
}
