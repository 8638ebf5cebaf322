/**
 * A path that leaves the library's folder, or is no relative path at all.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, quotedFound, repairsOf } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "file-outside",
  title: "Path that leaves the folder",
  why:
    "A plan reads only what lies in its own library, so that opening one never touches other files. " +
    "An absolute path also breaks on the next computer.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [['use "catalogue/fenwick.isthmus"', 'use "../../elsewhere/fenwick.isthmus"']] },
  right: { change: [] },
  wording: (problem) => ({
    message: `${quotedFound(problem)} leaves the library's folder and is not read.`,
    fixes: repairsOf(problem, "needs a choice"),
  }),
};
