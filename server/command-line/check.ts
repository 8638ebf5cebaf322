/** `isthmus check`: the findings of plans, catalogues and protocols, as text for a person or JSON for a program. */
import { caution } from "../answers/caution.ts";
import { analysisRecord, recordEdition } from "../answers/records.ts";
import { digestOf } from "../files/digest.ts";
import { filesBelow } from "../files/disk.ts";
import type { Finding, Grade } from "../findings/finding.ts";
import type { Command, Invocation } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";
import { findingsText } from "./finding-text.ts";
import { type Examined, examiner } from "./read.ts";
import { printable, styled, type Terminal } from "./terminal.ts";

const weights: Readonly<Record<Grade, number>> = { information: 1, warning: 2, error: 3 };

export const check: Command = {
  name: "check",
  usage: "check PATHS…",
  does: "print what is found in plans, catalogues and protocols",
  options: {
    "fail-on": {
      type: "string",
      value: "GRADE",
      help: "exit 1 from this grade on: error (default), warning, information",
    },
    report: { type: "string", value: "FORMAT", help: "text (default) or json" },
    "stdin-name": { type: "string", value: "NAME", help: "the name under which `-` (standard input) is read" },
  },
  run: checkPaths,
};

function checkPaths({ paths, option, terminal }: Invocation): ExitCode {
  const failOn = option("fail-on") ?? "error";
  const report = option("report") ?? "text";
  if (!isGrade(failOn)) return wrong(terminal, `--fail-on takes error, warning or information, not "${failOn}"`);
  if (report !== "text" && report !== "json") return wrong(terminal, `--report takes text or json, not "${report}"`);
  if (paths.length === 0) return wrong(terminal, "check needs at least one file or folder");

  const named = paths.filter((path) => path !== "-");
  const { files, missing } = filesBelow(named);
  for (const path of missing) terminal.err(`isthmus: ${printable(path)}: there is no such file or folder\n`);
  const toExamine = [...files, ...paths.filter((path) => path === "-")];
  if (toExamine.length === 0 && missing.length === 0) {
    terminal.err("isthmus: no .isthmus file is there\n");
    return exit.broken;
  }
  const examine = examiner(option("stdin-name"));
  const records: FileRecord[] = [];
  let broken = missing.length > 0;
  let failed = false;
  // Each analysis is let go once its file has been told of, so that the memory does not grow with the number of files.
  for (const path of toExamine) {
    const each = examine(path);
    if (each.kind === "unreadable") terminal.err(`isthmus: ${printable(each.name)}: ${each.because}\n`);
    broken ||= each.kind === "unreadable";
    failed ||= fails(each, failOn);
    if (report === "json") records.push(fileRecord(each));
    else terminal.out(fileText(terminal, each));
  }
  if (report === "json")
    terminal.out(`${JSON.stringify({ edition: recordEdition, caution, files: records }, null, 2)}\n`);
  if (broken) return exit.broken;
  return failed ? exit.found : exit.clear;
}

function wrong(terminal: Terminal, message: string): ExitCode {
  terminal.err(`isthmus: ${printable(message)}\n`);
  return exit.wrongUse;
}

function isGrade(word: string): word is Grade {
  return Object.hasOwn(weights, word);
}

function fails(examined: Examined, from: Grade): boolean {
  return (
    examined.kind === "analysed" &&
    examined.analysis.judgement.findings.some(
      (finding) => finding.waived === undefined && weights[finding.grade] >= weights[from],
    )
  );
}

function fileText(terminal: Terminal, examined: Examined): string {
  if (examined.kind === "unreadable") return "";
  const findings = examined.analysis.judgement.findings;
  const shown = findings.length > 0 ? `${findingsText(terminal, examined.name, examined.analysis)}\n` : "";
  const told = findings.length === 0 ? "nothing found" : tally(findings);
  return `${shown}${styled(terminal, "strong", printable(examined.name))}: ${told}\n${untoldText(examined)}`;
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

type FileRecord =
  | Pick<ReturnType<typeof analysisRecord>, "file" | "digest" | "findings">
  | { readonly file: string; readonly because: string; readonly findings: null };

function fileRecord(examined: Examined): FileRecord {
  if (examined.kind === "unreadable") return { file: examined.name, because: examined.because, findings: null };
  const { analysis, name } = examined;
  const { file, digest, findings } = analysisRecord(analysis, name, digestOf(analysis.text), caution);
  return { file, digest, findings };
}
