/**
 * A sign or space that groups the digits of a number.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis, quotedFound, repairsOf } from "./problem-words.ts";

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
    change: [["modulus 110 GPa", "modulus 110'000 MPa"]],
    of: "catalogue",
  },
  right: { change: [["modulus 110 GPa", "modulus 110000 MPa"]], of: "catalogue" },
  wording: (problem) => ({
    message: `${quotedFound(problem)} groups its digits; write them without a separator.`,
    fixes: repairsOf(problem, "changes a decision"),
  }),
};
