/** Where a name, a hole, a view, a nail or an imported file is declared. */
import type { Place } from "../meaning/plan.ts";
import type { Analysis } from "./analyse.ts";
import { holds } from "./statements.ts";

export function definitionAt(analysis: Analysis, offset: number): Place | undefined {
  const { references, document } = analysis.meaning;
  const use = references.uses.find(({ span }) => holds(span, offset));
  if (use?.declared !== undefined) return use.declared;
  if (document?.kind !== "plan") return undefined;
  const imported = [...document.uses, ...document.follows].find(({ path }) => holds(path.place.span, offset))?.document;
  return imported?.title.place;
}
