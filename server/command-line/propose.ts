/**
 * `isthmus propose`: the best choices of nail, reaming, depth, cap and screws for a plan's measures, as statements to paste with their
 * margins, or as JSON; when there is none, why.
 */
import { caution } from "../answers/caution.ts";
import { neighbours, type Proposal, type Proposed, propose as proposed, stillFound } from "../answers/propose.ts";
import { sizeText } from "../answers/propose-choices.ts";
import { figuresOf, proposalsRecord } from "../answers/propose-figures.ts";
import { proposedLines } from "../answers/propose-lines.ts";
import { wordsOf } from "../answers/propose-trial.ts";
import { digestOf } from "../files/digest.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Command, Invocation } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";
import { examiner } from "./read.ts";
import { standing } from "./standing.ts";
import { printable, styled, type Terminal, table } from "./terminal.ts";

export const propose: Command = {
  name: "propose",
  usage: "propose FILE",
  does: "search nail, reaming, cap and screws in catalogue and measures: the three best, and why not their neighbours",
  options: { json: { type: "boolean", help: "as JSON; the schema comes with the package" } },
  run: proposeFor,
};

function proposeFor({ paths, flag, terminal }: Invocation): ExitCode {
  const [path, ...others] = paths;
  if (path === undefined || others.length > 0) {
    terminal.err("isthmus: propose takes one file\n");
    return exit.wrongUse;
  }
  const examined = examiner()(path);
  if (examined.kind === "unreadable") {
    terminal.err(`isthmus: ${printable(path)}: ${examined.because}\n`);
    return exit.broken;
  }
  const { analysis, name } = examined;
  const found = proposed(analysis);
  if (flag("json")) {
    const record = proposalsRecord(analysis, name, digestOf(analysis.text), caution);
    terminal.out(`${JSON.stringify(record, null, 2)}\n`);
  } else {
    terminal.out(`${proposalsText(terminal, name, found)}${standing(terminal, analysis)}`);
  }
  if (found.frame === undefined) return exit.broken;
  return found.proposals.length > 0 ? exit.clear : exit.found;
}

/** The proposals with their margins, or why there is none. */
function proposalsText(terminal: Terminal, name: string, found: Proposed): string {
  const head = styled(terminal, "strong", printable(name));
  const leftOut = found.leftOut.map(({ what, because }) => `Not searched, ${printable(what)}: ${printable(because)}\n`);
  if (found.proposals.length === 0) {
    const reasons = found.because.map((because) => `  ${printable(because)}\n`);
    return `${head}: nothing can be proposed\n${reasons.join("")}\n${leftOut.join("")}`;
  }
  const parts = found.proposals.map((proposal, at) => proposalText(terminal, found, proposal, at + 1));
  return `${head}: ${counts(found)}\n${order}\n\n${parts.join("\n")}\n${leftOut.join("")}`;
}

const order =
  "Those without an error, by the probability that the length fits, the fit ratio nearest 0.9, the least bone removed.";

function counts({ proposals, judged, candidates, complete }: Proposed): string {
  const many = proposals.length === 1 ? "one proposal" : `${proposals.length} proposals, best first`;
  const given = complete ? "" : "; the search was given up, there may be better ones";
  return `${many}; ${judged} of ${candidates} choices had to be judged${given}`;
}

function proposalText(terminal: Terminal, found: Proposed, proposal: Proposal, number: number): string {
  const { nail } = proposal.candidate;
  const lines = found.frame === undefined ? [] : proposedLines(found.frame, proposal);
  const figures = figuresOf(proposal).map(({ label, quantity, unit, remark }) => {
    const value = quantity.kind === "known" ? print(quantity, unit) : `unknown: ${quantity.because}`;
    return [" ", label, printable(value), printable(remark ?? "")];
  });
  const around = neighbours(found, proposal).map(({ what, way, size: other, words }) => {
    const called = other === undefined ? `${way} ${what}` : `${what} ${printValue(other, "mm")}`;
    return [" ", called, printable(words)];
  });
  const still = stillFound(found, proposal).map((finding) => {
    return `  still found, ${styled(terminal, finding.grade, finding.grade)}: ${printable(wordsOf(finding))}\n`;
  });
  return [
    `${styled(terminal, "strong", `${number}  nail ${printable(nail.name.text)} ${sizeText(proposal.candidate)}`)}\n`,
    ...lines.map((line) => `${printable(line)}\n`),
    `\n${table(figures)}`,
    ...still,
    `\n${table(around)}`,
  ].join("");
}
