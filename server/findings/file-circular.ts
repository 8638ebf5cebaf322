/**
 * Files that read each other in a circle.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, quotedFound, repairsOf } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "file-circular",
  title: "Files that read each other in a circle",
  why:
    "A file that leads back to itself has no end. " +
    "The circle is cut at this line, and what it would have brought is missing.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [['use "catalogue/fenwick.isthmus"', 'use "plan.isthmus"']] },
  right: { change: [] },
  wording: (problem) => ({
    message: `${quotedFound(problem)} leads back to this file.`,
    fixes: repairsOf(problem, "needs a choice"),
  }),
};
