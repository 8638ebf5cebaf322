/**
 * A comma written as the decimal sign; commas separate phrases in this language.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, quotedFound, repairsOf } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "decimal-comma",
  title: "Comma as the decimal sign",
  why:
    "A comma ends a phrase here, so 8,5 would be read as two numbers. " +
    "A reamer of 85 mm or of 5 mm is worse than an error, so the comma is refused and the point is offered.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["nail fenwick, diameter 10 mm,", "nail fenwick, diameter 10,0 mm,"]] },
  right: { change: [] },
  wording: (problem) => ({
    message: `${quotedFound(problem)} has a comma as its decimal sign; write a point.`,
    fixes: repairsOf(problem, "changes a decision"),
  }),
};
