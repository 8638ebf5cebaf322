/** Findings as a person reads them in a terminal: place, grade, message, the source line with carets, and what a fix would do. */
import type { Analysis } from "../answers/analyse.ts";
import { type Lines, linesOf } from "../answers/lines.ts";
import type { Finding } from "../findings/finding.ts";
import { type Colours, printable, printableColumns, styled } from "./terminal.ts";

export function findingsText(colours: Colours, name: string, analysis: Analysis): string {
  const lines = linesOf(analysis.text);
  return analysis.judgement.findings.map((finding) => findingText(colours, name, lines, finding)).join("\n");
}

function findingText(colours: Colours, name: string, lines: Lines, finding: Finding): string {
  const start = lines.position(finding.place.span.start);
  const end = lines.position(finding.place.span.end);
  const place = `${printable(name)}:${start.line + 1}:${start.character + 1}`;
  const grade = finding.waived === undefined ? finding.grade : `${finding.grade}, waived`;
  const head = `${place}  ${styled(colours, finding.grade, grade)}  ${styled(colours, "quiet", finding.slug)}`;
  const fallback = finding.fallback === undefined ? "" : ` (fallback: ${printable(finding.fallback)})`;
  const source = lines.text(start.line);
  const last = end.line === start.line ? end.character : source.length;
  const number = `${start.line + 1}`;
  const gutter = " ".repeat(number.length);
  const before = " ".repeat(printableColumns(source.slice(0, start.character)).length);
  const carets = "^".repeat(Math.max(1, printableColumns(source.slice(start.character, last)).trimEnd().length));
  const rows = [
    head,
    `  ${printable(finding.message)}${fallback}`,
    `  ${styled(colours, "quiet", `${number} |`)} ${printableColumns(source)}`,
    `  ${styled(colours, "quiet", `${gutter} |`)} ${before}${styled(colours, finding.grade, carets)}`,
  ];
  for (const fix of finding.fixes ?? [])
    rows.push(`  ${styled(colours, "quiet", `${gutter} =`)} fix: ${printable(fix.title)}`);
  if (finding.waived !== undefined) {
    rows.push(`  ${gutter} = waived: ${printable(finding.waived.because)} (${printable(finding.waived.signed)})`);
  }
  return `${rows.join("\n")}\n`;
}
