/** What `isthmus check` tells of one file, as plain data, so that it can come from another thread. */
import { caution } from "../answers/caution.ts";
import { analysisRecord } from "../answers/records.ts";
import { digestOf } from "../files/digest.ts";
import type { Finding, Grade } from "../findings/finding.ts";
import { findingsText } from "./finding-text.ts";
import { type Examined, examiner } from "./read.ts";
import { type Colours, printable, styled } from "./terminal.ts";

const weights: Readonly<Record<Grade, number>> = { information: 1, warning: 2, error: 3 };

export interface Settings {
  readonly failOn: Grade;
  readonly report: "text" | "json";
  /** The name under which standard input is read. */
  readonly standardName: string | undefined;
  readonly colours: boolean;
}

export interface Checked {
  /** For the report in text. */
  readonly out: string;
  /** For the report in JSON. */
  readonly record: FileRecord | undefined;
  readonly err: string;
  /** It could not be read. */
  readonly broken: boolean;
  /** Something is found at or above the asked grade. */
  readonly failed: boolean;
}

type FileRecord =
  | Pick<ReturnType<typeof analysisRecord>, "file" | "digest" | "findings">
  | { readonly file: string; readonly because: string; readonly findings: null };

export function isGrade(word: string): word is Grade {
  return Object.hasOwn(weights, word);
}

/** One a run: a catalogue shared by many plans is parsed once. Each analysis is let go once its file has been told of. */
export function checker(settings: Settings): (path: string) => Checked {
  const examine = examiner(settings.standardName);
  return (path) => {
    const each = examine(path);
    return {
      out: settings.report === "text" ? fileText(settings, each) : "",
      record: settings.report === "json" ? fileRecord(each) : undefined,
      err: each.kind === "unreadable" ? `isthmus: ${printable(each.name)}: ${each.because}\n` : "",
      broken: each.kind === "unreadable",
      failed: fails(each, settings.failOn),
    };
  };
}

function fails(examined: Examined, from: Grade): boolean {
  return (
    examined.kind === "analysed" &&
    examined.analysis.judgement.findings.some(
      (finding) => finding.waived === undefined && weights[finding.grade] >= weights[from],
    )
  );
}

function fileText(colours: Colours, examined: Examined): string {
  if (examined.kind === "unreadable") return "";
  const findings = examined.analysis.judgement.findings;
  const shown = findings.length > 0 ? `${findingsText(colours, examined.name, examined.analysis)}\n` : "";
  const told = findings.length === 0 ? "nothing found" : tally(findings);
  return `${shown}${styled(colours, "strong", printable(examined.name))}: ${told}\n${untoldText(examined)}`;
}

/** Rules that could not tell, by their reasons; a long list is cut, its length never. */
function untoldText({ analysis }: Extract<Examined, { kind: "analysed" }>): string {
  const byReason = new Map<string, string[]>();
  for (const [slug, { outcome, because }] of analysis.judgement.outcomes) {
    if (outcome !== "cannot tell") continue;
    const reason = because[0] ?? "an input is unknown";
    byReason.set(reason, [...(byReason.get(reason) ?? []), slug]);
  }
  const lines = [...byReason].map(([reason, slugs]) => {
    const shown = slugs.slice(0, 6).join(", ");
    const more = slugs.length > 6 ? ` and ${slugs.length - 6} more` : "";
    return `  cannot tell ${shown}${more}: ${printable(reason)}\n`;
  });
  return lines.join("");
}

function tally(findings: readonly Finding[]): string {
  const counts: string[] = [];
  for (const grade of ["error", "warning", "information"] as const) {
    const count = findings.filter((finding) => finding.grade === grade).length;
    if (count > 0) counts.push(`${count} ${grade}${count > 1 && grade !== "information" ? "s" : ""}`);
  }
  return counts.join(", ");
}

function fileRecord(examined: Examined): FileRecord {
  if (examined.kind === "unreadable") return { file: examined.name, because: examined.because, findings: null };
  const { analysis, name } = examined;
  const { file, digest, findings } = analysisRecord(analysis, name, digestOf(analysis.text), caution);
  return { file, digest, findings };
}
