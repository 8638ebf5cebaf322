/**
 * A named value or landmark that nothing uses.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, quotedFound, repairsOf } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "name-unused",
  title: "Named value that nothing uses",
  why:
    "A value that was named and then forgotten is often a line that still holds the number typed in twice. " +
    "It changes nothing that is reckoned.",
  grade: "information",
  basis: languageBasis,
  wrong: { change: [["  status for-review\n", "  status for-review\n  let play = 2 mm\n"]] },
  right: {
    change: [
      ["  status for-review\n", "  status for-review\n  let play = 16 mm\n"],
      ["landmark scar 416 mm ± 2 mm on ap", "landmark scar plafond - play"],
    ],
  },
  wording: (problem) => ({
    message: `${quotedFound(problem)} is named and never used.`,
    fixes: repairsOf(problem, "keeps every decision"),
  }),
};
