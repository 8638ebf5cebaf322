/**
 * A catalogue, protocol or bibliography that cannot be opened or is of another kind.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { languageBasis, quotedFound, repairsOf } from "./problem-words.ts";
import { listed } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "file-missing",
  title: "File that cannot be read",
  why:
    "Without its catalogue a plan has no nail: lengths, holes and screws cannot be checked. " +
    "Without its protocol the department's limits are not applied.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [['use "catalogue/fenwick.isthmus"', 'use "catalogue/fenwik.isthmus"']] },
  right: { change: [] },
  wording: (problem) => ({
    message: message(problem),
    fixes: repairsOf(problem, "needs a choice"),
    // Nothing is reckoned from a bibliography.
    ...(problem.expected?.includes("a bibliography") ? { grade: "warning" } : {}),
  }),
};

function message(problem: Problem): string {
  const expected = problem.expected ?? [];
  const found = quotedFound(problem);
  if (problem.inside !== undefined) return `${found} is ${problem.inside}, not ${listed(expected, "or")}.`;
  if (expected.length === 0) return `${found} cannot be read.`;
  return `${found} cannot be read as ${listed(expected, "or")}.`;
}
