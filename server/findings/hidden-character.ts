/**
 * A character that cannot be seen or that turns the direction of the text.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { languageBasis, repairsOf } from "./problem-words.ts";
import { opening, visible } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "hidden-character",
  title: "Character that cannot be seen",
  why:
    "Invisible and direction-changing characters make a line read differently from what it says. " +
    "Outside texts they are refused; inside a text they are pointed out.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["    side left", "    side\u200b left"]] },
  right: { change: [] },
  wording: (problem) => ({
    message: `${opening(what(problem))} ${problem.mild === true ? "stands in a text" : "stands here"} and cannot be seen.`,
    ...(problem.mild === true ? { grade: "warning" as const } : {}),
    fixes: repairsOf(problem, "keeps every decision"),
  }),
};

function what(problem: Problem): string {
  const shown = visible(problem.found ?? "");
  return shown === "" ? "a character" : `the character ${shown}`;
}
