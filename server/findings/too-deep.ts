/**
 * Blocks or parentheses nested beyond what is read.
 */
import type { DocumentRule } from "./finding.ts";
import { languageBasis } from "./problem-words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "too-deep",
  title: "Nested too deeply",
  why:
    "No plan needs more than a few levels; a text nested far beyond that is damaged or made to do harm. " +
    "It is not read, so nothing in it is judged.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["weight 78 kg", `weight ${"(".repeat(80)}78 kg${")".repeat(80)}`]] },
  right: { change: [] },
  wording: () => ({ message: "Blocks or parentheses are nested too deeply here; this text is not read." }),
};
