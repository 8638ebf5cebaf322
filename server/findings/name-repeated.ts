/**
 * A name given twice.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, repairsOf } from "./problem-words.ts";
import { quoted } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "name-repeated",
  title: "Name given twice",
  why:
    "Two landmarks of one name give every level measured from it two meanings. " +
    "The first is used and the second is told.",
  grade: "error",
  basis: languageBasis,
  wrong: {
    change: [
      [
        "    landmark plafond 432 mm ± 2 mm on ap\n",
        "    landmark plafond 432 mm ± 2 mm on ap\n    landmark plafond 431 mm on ap\n",
      ],
    ],
  },
  right: { change: [] },
  wording: (problem) => ({
    message: `${problem.found === undefined ? "A name" : `The name ${quoted(problem.found)}`} is given twice.`,
    fixes: repairsOf(problem, "needs a choice"),
    relatedMessage: "It is given here first.",
  }),
};
