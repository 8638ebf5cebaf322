/**
 * A part that a statement or a block must have and does not.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { expectedWords, languageBasis, repairsOf, standing } from "./problem-words.ts";
import { opening } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "missing",
  title: "Part that must be given and is not",
  why:
    "Some parts carry the plan: without the side, the bone, the fracture or the nail most of what is reckoned stays unknown. " +
    "A missing part is never guessed.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["    side left\n", ""]] },
  right: { change: [] },
  wording: (problem) => ({
    message: message(problem),
    fixes: repairsOf(problem, "needs a choice"),
    relatedMessage: "It opens here.",
  }),
};

function message(problem: Problem): string {
  const expected = expectedWords(problem);
  if (expected === "") return `Something is missing${standing(problem)}.`;
  if (/^(?:"|an? )/.test(expected)) return `${opening(expected)} is missing${standing(problem)}.`;
  return `Missing${standing(problem)}: ${expected}.`;
}
