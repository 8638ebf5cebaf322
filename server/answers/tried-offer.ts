/** What taking an offer would lead to: the plan with it written in, held against the plan with nothing there but what is typed. */
import type { Span } from "../../grammar/tree.ts";
import type { Finding } from "../findings/finding.ts";
import { printPercent } from "../quantity/print.ts";
import { analysedWith } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import { plain } from "./markdown.ts";
import { touches } from "./statements.ts";
import { findingText } from "./wording.ts";

/** Findings on the line with the offer in it, as Markdown; undefined when the document is no plan. */
export function triedOffer(analysis: Analysis, span: Span, text: string): string | undefined {
  if (analysis.meaning.document?.kind !== "plan") return undefined;
  const tried = analysedWith(analysis, [{ span, text }]);
  const line = { start: span.start, end: span.start + text.length };
  const found = tried.judgement.findings.filter(
    ({ place, waived }) => waived === undefined && touches(place.span, line),
  );
  if (found.length === 0) return "With this no finding stands on the line.";
  return ["With this:", "", ...found.map((finding) => `- ${told(finding)}`)].join("\n");
}

function told(finding: Finding): string {
  const { grade, slug, probability } = finding;
  const chance =
    probability === undefined || probability === 1 ? "" : ` (beyond the limit: ${printPercent(probability)})`;
  return `**${grade}** \`${slug}\`: ${plain(findingText(finding))}${chance}`;
}
