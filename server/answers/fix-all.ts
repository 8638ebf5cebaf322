/** All fixes at once that touch no decision: of each finding the first such fix, tried together before they are given. */
import type { Edit } from "../../grammar/problems.ts";
import { analysedWith } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import { fixesIn } from "./fixes.ts";
import { differences } from "./what-if.ts";

/** Edits in the order of the text; empty when there is nothing to fix, or a number or a decision would move with it. */
export function fixAllEdits(analysis: Analysis): readonly Edit[] {
  const fixes = fixesIn(analysis, { start: 0, end: analysis.text.length });
  const edits: Edit[] = [];
  const seen = new Set<unknown>();
  for (const fix of fixes) {
    if (fix.class !== "keeps every decision" || seen.has(fix.finding)) continue;
    seen.add(fix.finding);
    if (fix.edits.every((edit) => edits.every((other) => isApart(edit, other)))) edits.push(...fix.edits);
  }
  if (edits.length === 0) return [];
  const { changed, come } = differences(analysis, analysedWith(analysis, edits));
  return changed.length > 0 || come.length > 0 ? [] : edits.sort((a, b) => a.span.start - b.span.start);
}

function isApart(a: Edit, b: Edit): boolean {
  return a.span.end < b.span.start || b.span.end < a.span.start;
}
