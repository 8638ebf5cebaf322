/**
 * A text longer than what is read.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "too-long",
  title: "Text too long",
  why: "A plan is a few pages; a text far beyond that is not one. " + "It is not read, so nothing in it is judged",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["weight 78 kg", `weight 78${"0".repeat(400)} kg`]] },
  right: { change: [] },
  wording: () => ({ message: "This is longer than any plan; it is not read." }),
};
