/**
 * A waiver for each finding at a place, with its reason and its name left for the writer: the tool gives neither, and until both stand
 * there the waiver covers nothing.
 */
import type { Edit } from "../../grammar/problems.ts";
import { isWord } from "../../grammar/tokens.ts";
import type { Span } from "../../grammar/tree.ts";
import { rules } from "../findings/all.ts";
import type { Finding } from "../findings/finding.ts";
import { insertAfter, insertBefore } from "../findings/line-edits.ts";
import { isWaivable } from "../findings/waivers.ts";
import { analysedWith } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import { touches } from "./statements.ts";

export interface OfferedWaiver {
  readonly title: string;
  readonly finding: Finding;
  readonly edits: readonly Edit[];
}

/** Findings of a fallback, and those that are waived already, have none. */
export function waiversIn(analysis: Analysis, span: Span): readonly OfferedWaiver[] {
  const { meaning, judgement, file } = analysis;
  const { document } = meaning;
  if (document?.kind !== "plan" || document.file !== file) return [];
  return judgement.findings
    .filter(({ place, waived }) => waived === undefined && place.file === file && touches(place.span, span))
    .filter(({ slug }) => rules.some((rule) => rule.slug === slug && isWaivable(rule)))
    .slice(0, mostWaivers)
    .flatMap((finding): OfferedWaiver[] => {
      const at = finding.at !== undefined && isWord(finding.at) ? ` at ${finding.at}` : "";
      const edit = (said: string): Edit | undefined =>
        waiverEdit(analysis, `waive ${finding.slug}${at}, because "${said}", signed "${said}"`);
      const [empty, filled] = [edit(""), edit("tried")];
      if (empty === undefined || filled === undefined || !isWaivedWith(analysis, finding, filled)) return [];
      return [{ title: `Waive \`${finding.slug}\`${at}, with a reason`, finding, edits: [empty] }];
    });
}

/** Each is tried, and a stretch with more findings than these is no place to waive one at. */
const mostWaivers = 8;

/** After the last line before the case, so that waivers stand together at the head of the plan. */
function waiverEdit({ meaning, text }: Analysis, line: string): Edit | undefined {
  const statements = meaning.document?.statement.block?.statements ?? [];
  const waiver = statements.findLast(({ word }) => word.name === "waive");
  if (waiver !== undefined) return insertAfter(text, waiver.span, line);
  const first = statements.find(({ block }) => block !== undefined);
  const before = first === undefined ? undefined : statements[statements.indexOf(first) - 1];
  if (before !== undefined) return insertAfter(text, before.span, line);
  return first === undefined ? undefined : insertBefore(text, first.span, line);
}

/** Tried: what no waiver can cover is offered none. */
function isWaivedWith(analysis: Analysis, { slug, at }: Finding, edit: Edit): boolean {
  return analysedWith(analysis, [edit]).judgement.findings.some(
    (finding) => finding.slug === slug && finding.at === at && finding.waived !== undefined,
  );
}
