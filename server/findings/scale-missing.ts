/**
 * A reading on a view that is described nowhere, told at its first use. A described view with an odd scale is `scale-odd`.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { languageBasis, repairsOf } from "./problem-words.ts";
import { quoted } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "scale-missing",
  title: "Reading on a view without a scale",
  why:
    "A length read on an image is larger than the bone by the view's magnification, which only the view's marker can tell. " +
    "Without it the reading has no true length, and whatever depends on it stays unknown.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["landmark scar 416 mm ± 2 mm on ap", "landmark scar 416 mm ± 2 mm on oblique"]] },
  right: { change: [] },
  wording: (problem) => ({ message: message(problem), fixes: repairsOf(problem, "needs a choice") }),
};

function message({ found, near }: Problem): string {
  const meant = near === undefined ? "" : `; perhaps ${quoted(near)} is meant`;
  const view = found === undefined ? "A view" : `View ${quoted(found)}`;
  return `${view} is described nowhere, so what is read on it has no scale${meant}.`;
}
