/**
 * A note with no statement after it to belong to.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, repairsOf } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "note-adrift",
  title: "Note that belongs to nothing",
  why:
    "A note explains the statement that follows it. " +
    "One that stands last in its block is shown nowhere in a lesson or on a sheet.",
  grade: "information",
  basis: languageBasis,
  wrong: {
    change: [
      [
        "    check ap, lateral, rotation\n",
        "    check ap, lateral, rotation\n    ## Record the rotation before the drapes come off.\n",
      ],
    ],
  },
  right: { change: [] },
  wording: (problem) => ({
    message: "This note has no statement after it to belong to.",
    fixes: repairsOf(problem, "keeps every decision"),
  }),
};
