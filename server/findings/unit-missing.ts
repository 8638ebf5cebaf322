/**
 * A number without its unit where one is needed.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { expectedWords, languageBasis, repairsOf } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "unit-missing",
  title: "Number without a unit",
  why:
    "A bare number has been read as millimetres by one person and centimetres by the next. " +
    "No unit is ever taken for granted, so the number is not used until it has one.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["landmark plafond 432 mm ± 2 mm on ap", "landmark plafond 432 on ap"]] },
  right: { change: [] },
  wording: (problem) => ({ message: message(problem), fixes: repairsOf(problem, "needs a choice") }),
};

function message(problem: Problem): string {
  const expected = expectedWords(problem);
  return `${problem.found ?? "The number"} has no unit${expected === "" ? "" : `; ${expected} is expected`}.`;
}
