/**
 * A statement or clause that the language has, in a block where it does not belong.
 */
import type { Problem } from "../../grammar/problems.ts";
import { blockRules, placeInWords } from "../../grammar/vocabulary/blocks.ts";
import type { DocumentRule } from "./finding.ts";
import { expectation, foundWords, languageBasis, repairsOf, standing } from "./problem-words.ts";
import { listed } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "misplaced",
  title: "Statement in a block where it does not belong",
  why:
    "A word means what it means only in its own block: a screw among the measures is not a step of the operation. " +
    "What stands in the wrong place is not reckoned with.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["  status for-review\n", "  status for-review\n  wire ball-tip\n"]] },
  right: { change: [] },
  wording: (problem) => ({
    message: message(problem),
    fixes: repairsOf(problem, "needs a choice"),
    relatedMessage: "This is where it is.",
  }),
};

/** Where statements stand, in the words the grammar uses for it. */
const homes: ReadonlySet<string> = new Set([...blockRules.keys()].map(placeInWords));

function message(problem: Problem): string {
  const expected = problem.expected ?? [];
  const home = expected.length > 0 && expected.every((each) => homes.has(each));
  const instead = home ? `; it belongs in ${listed(expected, "or")}` : expectation(problem);
  return `${foundWords(problem)} does not belong${standing(problem) || " here"}${instead}.`;
}
