/** `isthmus explain`: what a finding, limit, reckoning, word, unit or function means, from the data that judges and reckons. */
import { caution } from "../answers/caution.ts";
import { explainable, explain as explained, nearestTerm } from "../answers/explain.ts";
import type { Command, Invocation } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";
import { printable } from "./terminal.ts";

export const explain: Command = {
  name: "explain",
  usage: "explain TERM",
  does: "explain a finding, limit, reckoning, word, unit or function",
  options: {},
  run: explainTerm,
};

function explainTerm({ paths, terminal }: Invocation): ExitCode {
  const [term, ...others] = paths;
  if (term === undefined) {
    for (const [kind, terms] of Object.entries(explainable())) terminal.out(`${kind}:\n  ${terms.join(" ")}\n`);
    return exit.clear;
  }
  if (others.length > 0) {
    terminal.err("isthmus: explain takes one term\n");
    return exit.wrongUse;
  }
  const told = explained(term);
  if (told === undefined) {
    const near = nearestTerm(term);
    const hint = near === undefined ? "`isthmus explain` lists what is known" : `did you mean ${near}?`;
    terminal.err(`isthmus: nothing is known as "${printable(term)}"; ${hint}\n`);
    return exit.found;
  }
  terminal.out(`${told}\n${caution}\n`);
  return exit.clear;
}
