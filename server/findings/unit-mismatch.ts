/**
 * A quantity of the wrong kind: a length where an angle is asked for, or a sum of both.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { languageBasis, repairsOf } from "./problem-words.ts";
import { listed, opening, withArticle } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "unit-mismatch",
  title: "Quantity of the wrong kind",
  why:
    "A length cannot stand for an angle nor be added to one. " +
    "Such a line is nearly always a slip of the unit, and any number made from it would be wrong.",
  grade: "error",
  basis: languageBasis,
  wrong: {
    change: [
      ["position supine, table radiolucent, support distal-thigh, knee 100 deg", "position supine, knee 100 mm"],
    ],
  },
  right: { change: [] },
  wording: (problem) => ({ message: message(problem), fixes: repairsOf(problem, "needs a choice") }),
};

function message(problem: Problem): string {
  const found = withArticle(problem.found ?? "quantity");
  const expected = (problem.expected ?? []).map(withArticle);
  if (expected.length === 0) return `${opening(problem.found ?? "This is of the wrong kind")}.`;
  return `${opening(found)} stands where ${listed(expected, "or")} is expected.`;
}
