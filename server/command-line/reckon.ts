/** `isthmus reckon`: every reckoning of one plan, as a table for a person or JSON for a program. */
import type { Analysis } from "../answers/analyse.ts";
import { caution } from "../answers/caution.ts";
import { analysisRecord } from "../answers/records.ts";
import { digestOf } from "../files/digest.ts";
import { print } from "../quantity/print.ts";
import type { Reckoning } from "../reckoning/reckoning.ts";
import type { Command, Invocation } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";
import { examiner } from "./read.ts";
import { printable, styled, type Terminal, table } from "./terminal.ts";

export const reckonCommand: Command = {
  name: "reckon",
  usage: "reckon FILE",
  does: "print every number computed from a plan, with its uncertainty and formula",
  options: { json: { type: "boolean", help: "as JSON, with findings; the schema comes with the package" } },
  run: reckonFile,
};

function reckonFile({ paths, flag, terminal }: Invocation): ExitCode {
  const [path, ...others] = paths;
  if (path === undefined || others.length > 0) {
    terminal.err("isthmus: reckon takes one file\n");
    return exit.wrongUse;
  }
  const examined = examiner()(path);
  if (examined.kind === "unreadable") {
    terminal.err(`isthmus: ${printable(path)}: ${examined.because}\n`);
    return exit.broken;
  }
  const { analysis } = examined;
  if (flag("json")) {
    const record = analysisRecord(analysis, examined.name, digestOf(analysis.text), caution);
    terminal.out(`${JSON.stringify(record, null, 2)}\n`);
  } else if (analysis.reckonings === undefined) {
    terminal.err(`isthmus: ${printable(path)}: ${printable(whyNothing(analysis))}\n`);
  } else {
    terminal.out(reckoningsText(terminal, analysis));
  }
  if (analysis.reckonings === undefined) return exit.broken;
  return analysis.judgement.findings.some((each) => each.grade === "error" && each.waived === undefined)
    ? exit.found
    : exit.clear;
}

/** The table of all reckonings of a plan, and the notices of the catalogues its numbers come from. */
export function reckoningsText(terminal: Terminal, analysis: Analysis): string {
  const rows = (analysis.reckonings?.list ?? []).map((reckoning) => [
    printable(reckoning.id),
    printable(answerText(reckoning)),
    printable(`${reckoning.label}${reckoning.remark === undefined ? "" : ` (${reckoning.remark})`}`),
  ]);
  const notices = catalogueNotices(analysis).map((notice) => `Catalogue: ${printable(notice)}\n`);
  return [table(rows), "\n", ...notices, `${styled(terminal, "quiet", caution)}\n`].join("");
}

export function answerText(reckoning: Reckoning): string {
  const { answer } = reckoning;
  switch (answer.kind) {
    case "word":
      return answer.word;
    case "unknown":
      return `unknown: ${answer.because}`;
    case "known":
      return print(answer, reckoning.unit);
  }
}

function catalogueNotices(analysis: Analysis): string[] {
  const { document } = analysis.meaning;
  if (document?.kind !== "plan") return [];
  return document.uses.flatMap((use) => (use.document?.notice === undefined ? [] : [use.document.notice.text]));
}

function whyNothing(analysis: Analysis): string {
  const kind = analysis.meaning.document?.kind;
  return kind === undefined ? "it holds no plan that can be read" : `it is a ${kind}; only a plan is reckoned`;
}
