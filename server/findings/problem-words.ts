/**
 * What the rules over the text share: its repairs as fixes, and where a problem stands in words. Each rule still has its own
 * sentence.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { Basis } from "../reckoning/reckoning.ts";
import type { Fix, FixClass } from "./finding.ts";

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
