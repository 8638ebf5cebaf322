/**
 * A named value or landmark that nothing uses.
 */
import type { DocumentRule } from "./finding.ts";
import { takeOut } from "./line-edits.ts";
import { languageBasis, quotedFound } from "./problem-words.ts";
import { statementsAt } from "./tree-walk.ts";

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
  }),
  // The number typed there goes with it: never without being asked.
  fixesIn: (problem, { text, tree }) =>
    statementsAt(tree, problem.span)
      .slice(-1)
      .map(({ span: line }) => ({
        title: `take the line of ${quotedFound(problem)} out`,
        class: "needs a choice",
        edits: [takeOut(text, line)],
      })),
};
