/** Canonical layout as one edit: only the lines that change are replaced, so that cursors and marks elsewhere stay. */
import { layout } from "../../grammar/layout.ts";
import type { Edit } from "../../grammar/problems.ts";
import type { Analysis } from "./analyse.ts";

/** No edits when the text is tidy already; undefined when it cannot be laid out without risk to its meaning. */
export function formattingEdits(analysis: Analysis): readonly Edit[] | undefined {
  const text = layout(analysis.parsed);
  if (text === undefined) return undefined;
  return text === analysis.text ? [] : [differenceOf(analysis.text, text)];
}

function differenceOf(old: string, next: string): Edit {
  let start = 0;
  while (start < old.length && start < next.length && old[start] === next[start]) start += 1;
  start = old.lastIndexOf("\n", start - 1) + 1;
  let tail = 0;
  while (
    tail < old.length - start &&
    tail < next.length - start &&
    old[old.length - 1 - tail] === next[next.length - 1 - tail]
  ) {
    tail += 1;
  }
  const lineEnd = old.indexOf("\n", old.length - tail);
  tail = lineEnd < 0 ? 0 : old.length - lineEnd;
  return { span: { start, end: old.length - tail }, text: next.slice(start, next.length - tail) };
}
