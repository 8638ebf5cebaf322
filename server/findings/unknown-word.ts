/**
 * A word that opens no statement and no clause of the language. Words that stand in the wrong block are `misplaced`.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { expectation, languageBasis, quotedFound, repairsOf, standing } from "./problem-words.ts";
import { quoted } from "./words.ts";

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
  wording: (problem) => ({ message: message(problem), fixes: repairsOf(problem, "needs a choice") }),
};

function message(problem: Problem): string {
  const { near } = problem;
  const hint = near === undefined ? expectation(problem) : `; perhaps ${quoted(near)} is meant`;
  return `${quotedFound(problem)} is not known${standing(problem)}${hint}.`;
}
