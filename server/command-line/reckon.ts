/**
 * `isthmus reckon`: every reckoning of one plan as a table or as JSON; the budget of one; a simulation beside the first-order
 * figures; what changes when a value is written over.
 */
import type { Analysis } from "../answers/analyse.ts";
import { caution } from "../answers/caution.ts";
import { analysisRecord } from "../answers/records.ts";
import { type Simulated, simulate } from "../answers/simulate.ts";
import { type WhatIf, whatIf } from "../answers/what-if.ts";
import { budgetLines, findingsOn, needText } from "../answers/why.ts";
import { answerText } from "../answers/wording.ts";
import { digestOf } from "../files/digest.ts";
import { exact } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import { type Command, type Invocation, wholeNumber, wrong } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";
import { findingsText } from "./finding-text.ts";
import { type Examined, examiner } from "./read.ts";
import { standing } from "./standing.ts";
import { printable, type Terminal, table } from "./terminal.ts";

export const reckonCommand: Command = {
  name: "reckon",
  usage: "reckon FILE",
  does: "print every number computed from a plan, with its uncertainty and formula",
  options: {
    json: { type: "boolean", help: "as JSON, with findings; the schema comes with the package" },
    why: {
      type: "string",
      value: "ID",
      help: "formula and budget of one: which reading contributes what, what would settle it",
    },
    simulate: {
      type: "string",
      value: "N",
      help: "N trials (100 to 1000000) of a Monte Carlo beside the first-order figures",
    },
    seed: { type: "string", value: "N", help: "of the simulation; 1 unless given" },
    set: { type: "string", value: "NAME=VALUE", help: 'what if: `scar="352 mm ± 1 mm"`, `nail.length="330 mm"`' },
  },
  run: reckonFile,
};

type Plan = Extract<Examined, { kind: "analysed" }>;

function reckonFile({ paths, flag, option, terminal }: Invocation): ExitCode {
  const [path, ...others] = paths;
  if (path === undefined || others.length > 0) return wrong(terminal, "reckon takes one file");
  const asked = ["why", "simulate", "set"].filter((name) => option(name) !== undefined);
  if (asked.length + (flag("json") ? 1 : 0) > 1)
    return wrong(terminal, "--json, --why, --simulate and --set go one at a time");

  const examined = examiner()(path);
  if (examined.kind === "unreadable") {
    terminal.err(`isthmus: ${printable(path)}: ${examined.because}\n`);
    return exit.broken;
  }
  const { analysis, name } = examined;
  if (flag("json")) {
    terminal.out(`${JSON.stringify(analysisRecord(analysis, name, digestOf(analysis.text), caution), null, 2)}\n`);
  }
  if (analysis.reckonings === undefined) {
    terminal.err(`isthmus: ${printable(path)}: ${printable(whyNothing(analysis))}\n`);
    return exit.broken;
  }
  const why = option("why");
  if (why !== undefined) return printWhy(terminal, analysis, why);
  const trials = option("simulate");
  if (trials !== undefined) return printSimulation(terminal, examined, trials, option("seed") ?? "1");
  const set = option("set");
  if (set !== undefined) return printWhatIf(terminal, examined, set);
  if (!flag("json")) terminal.out(reckoningsText(terminal, analysis));
  return hasErrors(analysis) ? exit.found : exit.clear;
}

function hasErrors({ judgement }: Analysis): boolean {
  return judgement.findings.some(({ grade, waived }) => grade === "error" && waived === undefined);
}

/** The table of all reckonings of a plan, its remarks as footnotes, and the notices of the catalogues its numbers come from. */
export function reckoningsText(terminal: Terminal, analysis: Analysis): string {
  const remarks = new Map<string, number>();
  const numberOf = (remark: string): number => {
    const number = remarks.get(remark) ?? remarks.size + 1;
    remarks.set(remark, number);
    return number;
  };
  const rows: string[][] = [];
  const lists: string[] = [];
  for (const reckoning of analysis.reckonings?.list ?? []) {
    const value = printable(answerText(reckoning));
    const mark = reckoning.remark === undefined ? "" : ` [${numberOf(printable(reckoning.remark))}]`;
    if (value.length <= widestValue) rows.push([printable(reckoning.id), value, printable(reckoning.label) + mark]);
    else lists.push(`${printable(reckoning.id)}, ${printable(reckoning.label)}${mark}:\n${wrapped(value, "  ")}`);
  }
  const notes = [...remarks].map(([remark, number]) => wrapped(`[${number}] ${remark}`, "    ").replace(/^ {4}/, ""));
  return [table(rows), ...lists, notes.join(""), standing(terminal, analysis)].join("\n");
}

/** Longer values, lists of things above all, stand under the table on lines of their own. */
const widestValue = 40;

/** Lines of at most 100 columns, broken at blanks, each behind `indent`; a word longer than a line stays whole. */
function wrapped(text: string, indent: string): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && indent.length + line.length + 1 + word.length > 100) {
      lines.push(line);
      line = word;
    } else {
      line = line === "" ? word : `${line} ${word}`;
    }
  }
  return [...lines, line].map((each) => `${indent}${each}\n`).join("");
}

function printWhy(terminal: Terminal, analysis: Analysis, id: string): ExitCode {
  const reckoning = analysis.reckonings?.byId.get(id);
  if (reckoning === undefined)
    return wrong(terminal, `this plan has no reckoning ${id}; \`isthmus reckon\` lists them`);
  const { label, formula, filled, basis, remark } = reckoning;
  const budget = budgetLines(reckoning);
  const lines = [
    `${id}: ${label} = ${answerText(reckoning)}`,
    `  ${formula}`,
    `  ${filled}`,
    `  basis: ${basis.text}`,
    ...(remark === undefined ? [] : [`  ${remark}`]),
    ...(budget.length === 0 ? ["  no uncertain reading goes into it"] : budget.map((line) => `  ${line}`)),
    ...findingsOn(analysis, reckoning).flatMap((finding) => {
      const need = needText(finding);
      return [`  ${finding.grade} ${finding.slug}: ${finding.message}`, ...(need === undefined ? [] : [`    ${need}`])];
    }),
  ];
  terminal.out(`${lines.map(printable).join("\n")}\n\n${standing(terminal, analysis)}`);
  return exit.clear;
}

function printSimulation(terminal: Terminal, { analysis, library }: Plan, trials: string, seed: string): ExitCode {
  const count = wholeNumber(trials, 100, 1_000_000);
  const start = wholeNumber(seed, 0, 4_294_967_295);
  if (count === undefined) return wrong(terminal, "--simulate takes a whole number from 100 to 1000000");
  if (start === undefined) return wrong(terminal, "--seed takes a whole number from 0 to 4294967295");
  const simulated = simulate(analysis, library, count, start);
  const rows = simulated.map((each) => [printable(each.id), ...simulatedCells(each)]);
  const doubtful = simulated.filter(({ agrees }) => !agrees).length;
  const verdict =
    doubtful === 0
      ? "Every first-order figure agrees with the simulation."
      : `${doubtful} of ${simulated.length} first-order figures disagree with the simulation; there the linear figure is not to be trusted.`;
  const head = ["reckoning", "first order", "simulated", "95.45 % of the trials", ""];
  terminal.out(
    `${table([head, ...rows])}\n${count} trials, seed ${start}. ${verdict}\n${standing(terminal, analysis)}`,
  );
  return exit.clear;
}

function simulatedCells({ unit, value, halfWidth, mean, deviation, low, high, agrees, trials }: Simulated): string[] {
  const shown = (number: number): string => print(exact(number, unit), unit);
  if (trials === 0) return ["", "", "", "never reckoned in the simulation"];
  return [
    `${shown(value)} ± ${shown(halfWidth)}`,
    `${shown(mean)} ± ${shown(2 * deviation)}`,
    `${shown(low)} to ${shown(high)}`,
    agrees ? "agrees" : "disagrees",
  ];
}

function printWhatIf(terminal: Terminal, { analysis, library, name }: Plan, set: string): ExitCode {
  const at = set.indexOf("=");
  if (at < 1) return wrong(terminal, "--set takes NAME=VALUE");
  const [what, value] = [set.slice(0, at).trim(), set.slice(at + 1).trim()];
  const changed = whatIf(analysis, library, what, value);
  if (changed === undefined)
    return wrong(terminal, `this plan has no value ${what}; name a landmark, a let, or a path such as nail.length`);
  terminal.out(whatIfText(terminal, name, analysis, changed, `${what} = ${value}`));
  return hasErrors(changed.analysis) ? exit.found : exit.clear;
}

function whatIfText(terminal: Terminal, name: string, before: Analysis, changed: WhatIf, said: string): string {
  const rows = changed.changed.map(({ id, before: old, after }) => [
    printable(id),
    printable(old),
    "→",
    printable(after),
  ]);
  const flips = [
    ...changed.gone.map(({ slug, message }) => `  no longer ${slug}: ${printable(message)}\n`),
    ...changed.come.map(({ slug, grade, message }) => `  now ${grade} ${slug}: ${printable(message)}\n`),
  ];
  const decisions = flips.length === 0 ? "No decision flips.\n" : `Decisions that flip:\n${flips.join("")}`;
  const unreadable = changed.analysis.parsed.problems.length > before.parsed.problems.length;
  const problems = unreadable ? `${findingsText(terminal, name, changed.analysis)}\n` : "";
  return `What if ${printable(said)}\n\n${problems}${table(rows)}\n${decisions}\n${standing(terminal, before)}`;
}

function whyNothing(analysis: Analysis): string {
  const kind = analysis.meaning.document?.kind;
  return kind === undefined ? "it holds no plan that can be read" : `it is a ${kind}; only a plan is reckoned`;
}
