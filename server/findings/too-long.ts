/**
 * A text longer than what is read.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "too-long",
  title: "Text too long",
  why: "A plan is a few pages; a text far beyond that is not one. " + "It is not read, so nothing in it is judged.",
  grade: "error",
  basis: languageBasis,
  wrong: {
    text: `isthmus 1

plan "An invented plan with a comment beyond measure" {
}
# ${"…".repeat(1_000_000)}
`,
  },
  right: { change: [] },
  wording: () => ({ message: "This is longer than any plan; it is not read." }),
};
