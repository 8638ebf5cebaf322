/**
 * A stretch of text that fits no rule of the writing: stray signs, an open text, a brace too many or too few.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import {
  describes,
  expectation,
  expectedWords,
  foundWords,
  languageBasis,
  repairsOf,
  standing,
} from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "unreadable",
  title: "Text that cannot be read",
  why:
    "What cannot be read has no meaning, and its statement stays out of every number and finding. " +
    "Everything else in the document keeps its meaning.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["    side left", "    side left ?"]] },
  right: { change: [] },
  wording: (problem) => ({
    message: message(problem),
    fixes: repairsOf(problem, "needs a choice"),
    relatedMessage: "It belongs to this.",
  }),
};

function message(problem: Problem): string {
  const { found = "", expected = [] } = problem;
  if (expected[0] === "an expression with a value") return `This has no value: ${found}.`;
  if (found === "") return `Something is missing${standing(problem)}${expectation(problem)}.`;
  if (describes(found)) return `${foundWords(problem)} stands where ${expectedWords(problem)} is expected.`;
  return `${foundWords(problem)} cannot be read${standing(problem)}${expectation(problem)}.`;
}
