/** Judges a rule's example, or a change of the sample plan, by the same road as every face. Not a test itself. */
import type { Analysis } from "../../server/answers/analyse.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import type { Example, Finding, Outcome } from "../../server/findings/finding.ts";
import { judge } from "../../server/findings/judge.ts";
import { understoodOnce } from "../understood.ts";

/** What an example may read. */
export const exampleReads: readonly string[] = [
  "catalogue/fenwick.isthmus",
  "protocol/teaching.isthmus",
  "references.bib",
];

export function judged(example: Example): Analysis {
  const { file, text, library } = exampleDocument(example);
  const of = understoodOnce(file, text, library, exampleReads);
  return { ...of, judgement: judge(of) };
}

/** The sample plan with some of its words replaced; each must stand exactly once in the plan, its catalogue or its protocol. */
export function changed(...change: readonly (readonly [from: string, to: string])[]): Analysis {
  return judged({ change });
}

export function findingsOf(analysis: Analysis, slug: string): readonly Finding[] {
  return analysis.judgement.findings.filter((finding) => finding.slug === slug);
}

/** The stretch of the text that a finding marks. */
export function marked(analysis: Analysis, finding: Finding | undefined): string {
  return finding === undefined ? "" : analysis.text.slice(finding.place.span.start, finding.place.span.end);
}

export function outcomeOf(analysis: Analysis, slug: string): Outcome | undefined {
  return analysis.judgement.outcomes.get(slug)?.outcome;
}

/** The text after a finding's first fix. */
export function fixed(analysis: Analysis, finding: Finding | undefined): string {
  const edits = [...(finding?.fixes?.[0]?.edits ?? [])].sort((a, b) => b.span.start - a.span.start);
  return edits.reduce(
    (text, { span, text: put }) => text.slice(0, span.start) + put + text.slice(span.end),
    analysis.text,
  );
}
