/**
 * A sign or space that groups the digits of a number.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, repairsOf } from "./problem-words.ts";
import { quoted } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "thousands-separator",
  title: "Digits in groups",
  why:
    "A space, an apostrophe or a second point inside a number has more than one reading: 1.000 is one or a thousand. " +
    "Digits are written without groups.",
  grade: "error",
  basis: languageBasis,
  wrong: {
    change: [["    view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm", "    view ap, marker 25 mm, seen 1'028 mm"]],
  },
  right: { change: [] },
  wording: (problem) => ({
    message: `${quoted(problem.found ?? "")} groups its digits; write them without a separator.`,
    fixes: repairsOf(problem, "changes a decision"),
  }),
};
