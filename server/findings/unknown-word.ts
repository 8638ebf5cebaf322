/**
 * A word that opens no statement and no clause of the language. Words that stand in the wrong block are `misplaced`.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, repairsOf, standing } from "./problem-words.ts";
import { listed, quoted } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "unknown-word",
  title: "Word that the language does not have",
  why:
    "A statement whose word is not known cannot be understood, so nothing it says reaches a number or a finding. " +
    "Most such words are slips of the keyboard, and the nearest known word is offered.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["    side left", "    sidde left"]] },
  right: { change: [] },
  wording: (problem) => ({
    message: message(problem.found ?? "", problem.near, problem.expected ?? [], standing(problem)),
    fixes: repairsOf(problem, "needs a choice"),
  }),
};

function message(found: string, near: string | undefined, expected: readonly string[], where: string): string {
  if (near !== undefined) return `${quoted(found)} is not known${where}; perhaps ${quoted(near)} is meant.`;
  if (expected.length === 0 || expected.length > 12) return `${quoted(found)} is not known${where}.`;
  return `${quoted(found)} is not known${where}; expected there: ${listed(expected, "or")}.`;
}
