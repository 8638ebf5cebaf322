/**
 * A part that may be given once and is given again.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, quotedFound, repairsOf, standing } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "repeated",
  title: "Part given more than once",
  why:
    "Where two lines say the same thing differently, no reader can know which one holds. " +
    "The first is used and the second is told.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["    side left\n", "    side left\n    side right\n"]] },
  right: { change: [] },
  wording: (problem) => ({
    message: `${quotedFound(problem)} is given more than once${standing(problem)}.`,
    fixes: repairsOf(problem, "changes a decision"),
    relatedMessage: "It is given here first.",
  }),
};
