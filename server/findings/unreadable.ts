/**
 * A stretch of text that fits no rule of the writing: stray signs, an open text, a brace too many or too few.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { expectation, languageBasis, repairsOf, standing } from "./problem-words.ts";
import { quoted } from "./words.ts";

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
  const found = problem.found ?? "";
  if (problem.expected?.[0] === "an expression with a value") return `This has no value: ${found}.`;
  const what = found === "" ? "Something is missing" : `${quoted(found)} cannot be read`;
  return `${what}${standing(problem)}${expectation(problem)}.`;
}
