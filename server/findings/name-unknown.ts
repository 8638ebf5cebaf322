/**
 * A name that is used and given nowhere: a landmark, a value, a finding or a limit. A view never described is
 * `scale-missing`.
 */
import type { Problem } from "../../grammar/problems.ts";
import type { DocumentRule } from "./finding.ts";
import { languageBasis, repairsOf } from "./problem-words.ts";
import { listed, quoted } from "./words.ts";

export const rule: DocumentRule = {
  kind: "document",
  slug: "name-unknown",
  title: "Name that is given nowhere",
  why: "A level measured from a landmark that does not exist has no value. " + "Whatever depends on it stays unknown.",
  grade: "error",
  basis: languageBasis,
  wrong: { change: [["landmark scar 416 mm ± 2 mm on ap", "landmark scar plafnd - 16 mm"]] },
  right: { change: [] },
  wording: (problem) => ({ message: message(problem), fixes: repairsOf(problem, "needs a choice") }),
};

function message(problem: Problem): string {
  if (problem.found === undefined) return "A name is given nowhere.";
  const found = quoted(problem.found);
  if (problem.inside === "its own definition") return `${found} is used in its own definition, so it has no value.`;
  const kind = listed(problem.expected ?? [], "or");
  const near = problem.near === undefined ? "" : `; perhaps ${quoted(problem.near)} is meant`;
  return `${kind === "" ? "Nothing" : `No ${kind}`} is called ${found}${near}.`;
}
