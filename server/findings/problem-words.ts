/**
 * What the rules over the text share: its repairs as fixes, and where a problem stands in words. Each rule still has its own
 * sentence.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { Basis } from "../reckoning/reckoning.ts";
import type { Fix, FixClass } from "./finding.ts";
import { listed, opening, quoted } from "./words.ts";

/** What every rule over the text itself is based on. */
export const languageBasis: Basis = { mark: "common practice", text: "the rules of the plan language" };

/** The repairs of a problem as fixes of one class. */
export function repairsOf(problem: Problem, fixClass: FixClass): readonly Fix[] {
  return (problem.repairs ?? []).map((repair) => ({ title: repair.title, class: fixClass, edits: repair.edits }));
}

/** " in case", " in the file" or nothing: to follow a noun. */
export function standing(problem: Problem): string {
  if (problem.inside === undefined || problem.inside === "") return "";
  return problem.inside === "file" ? " at the top of the file" : ` in ${problem.inside}`;
}

/** What was expected, as a list: words of the language in quotation marks, anything said in plain English without. */
export function expectedWords(problem: Problem): string {
  return listed((problem.expected ?? []).map(asWritten), "or");
}

/** "; expected there: …", or nothing when there is nothing to name or too much to read. */
export function expectation(problem: Problem): string {
  const count = problem.expected?.length ?? 0;
  return count === 0 || count > 12 ? "" : `; expected there: ${expectedWords(problem)}`;
}

/** What was found, in quotation marks; "This" where a problem does not say it. */
export function quotedFound({ found }: Problem): string {
  return found === undefined ? "This" : quoted(found);
}

/** What was found, as the opening of a sentence: typed text in quotation marks, a description without. */
export function foundWords(problem: Problem): string {
  return problem.found === undefined ? "This" : opening(asWritten(problem.found));
}

/** True for words that describe and do not stand in the language: "a length", "the end of the line". */
export function describes(words: string): boolean {
  return /^(?:an?|the|no|in|one) /.test(words) || / and an? /.test(words);
}

function asWritten(words: string): string {
  return describes(words) ? words : quoted(words);
}
