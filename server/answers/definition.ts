/**
 * Where a name, a hole, a view, a nail or an imported file is declared, where a protocol sets what the tool itself gives, and where a
 * bibliography holds what is cited.
 */
import { rules } from "../findings/all.ts";
import { citationsIn } from "../meaning/citations.ts";
import type { Place, Plan } from "../meaning/plan.ts";
import type { Analysis } from "./analyse.ts";
import { entriesNamed } from "./facts.ts";
import { holds } from "./statements.ts";

export function definitionAt(analysis: Analysis, offset: number): Place | undefined {
  const { references, document } = analysis.meaning;
  const use = references.uses.find(({ span }) => holds(span, offset));
  if (use?.declared !== undefined) return use.declared;
  if (document?.kind !== "plan") return undefined;
  const imported = [...document.uses, ...document.follows].find(({ path }) => holds(path.place.span, offset))?.document;
  return imported?.title.place;
}

/**
 * The one place that declares what stands at the offset, else the lines of the protocols that set its limits and its grade, or the
 * entries a citation names.
 */
export function definitionsAt(analysis: Analysis, offset: number): readonly Place[] {
  const declared = definitionAt(analysis, offset);
  if (declared !== undefined) return [declared];
  const { references, document } = analysis.meaning;
  if (document?.kind !== "plan") return [];
  const use = references.uses.find(({ span }) => holds(span, offset));
  if (use === undefined) return entriesCited(analysis, document, offset);
  if (use.kind !== "finding") return [];
  const rule = rules.find(({ slug }) => slug === use.name);
  const limits = rule?.kind === "plan" ? rule.limits : [];
  return document.follows.flatMap(({ document: protocol }) => [
    ...(protocol?.grades ?? []).filter(({ finding }) => finding.text === use.name).map(({ place }) => place),
    ...(protocol?.limits ?? []).filter(({ name }) => limits.includes(name.text)).map(({ place }) => place),
  ]);
}

function entriesCited({ text }: Analysis, plan: Plan, offset: number): readonly Place[] {
  const cited = citationsIn(text).find(({ span }) => holds(span, offset));
  return cited === undefined ? [] : entriesNamed(plan, cited.key);
}
