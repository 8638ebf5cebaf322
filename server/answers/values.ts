/**
 * The names and codes that a place may take, each with a detail: what is declared in reach of the place, and of the tool's own
 * lists what is not written there yet. Sizes are in `sizes.ts`.
 */
import type { ShapedStatement } from "../../grammar/shape.ts";
import { isWord } from "../../grammar/tokens.ts";
import type { Item } from "../../grammar/tree.ts";
import { rulesOf } from "../../grammar/vocabulary/blocks.ts";
import type { DimensionName, NameKind } from "../../grammar/vocabulary/rule.ts";
import { rules } from "../findings/all.ts";
import { codeGroups } from "../findings/fracture-codes.ts";
import { limitTable } from "../findings/limit-table.ts";
import { limitsOf } from "../findings/limits.ts";
import { neverWaived } from "../findings/waivers.ts";
import type { Declaration } from "../meaning/references.ts";
import { dimensionOf, sameDimension } from "../quantity/units.ts";
import type { Analysis } from "./analyse.ts";
import type { Inside } from "./cursor.ts";
import { limitValue } from "./limit-text.ts";
import { headName, holds, itemName, pathTo, statementsOf } from "./statements.ts";

export interface Value {
  readonly text: string;
  readonly detail: string;
}

/** Names of a kind that may be used at the cursor and are not used there already. */
export function nameValues(analysis: Analysis, cursor: Inside, kind: NameKind): Value[] {
  const listed = new Set(cursor.section.written.flatMap((item) => itemName(item) ?? []));
  return namesOf(analysis, cursor, kind).filter(({ text }) => !listed.has(text));
}

function namesOf(analysis: Analysis, cursor: Inside, kind: NameKind): Value[] {
  switch (kind) {
    case "finding":
      return findingValues(analysis, cursor);
    case "limit":
      return limitValues(cursor);
    case "hole":
      return holeValues(analysis, cursor);
    case "screws":
      return familyValues(analysis, cursor);
    case "word":
      return wordValues(analysis, cursor);
    case "value":
    case "landmark":
      return namedValues(analysis, cursor, undefined);
    case "view":
    case "nail":
      return declaredValues(analysis, kind);
  }
}

/** Named values that can be seen from the cursor; with `of` those alone that are of one of these dimensions. */
export function namedValues(
  analysis: Analysis,
  cursor: Inside,
  of: readonly DimensionName[] | undefined,
  kinds: readonly ("value" | "landmark")[] = ["value", "landmark"],
): Value[] {
  const { document, references } = analysis.meaning;
  const named = document?.kind === "plan" ? document.names : [];
  const fits = (declared: Declaration): boolean => {
    const quantity = named.find((each) => each.declared.span.start === declared.place.span.start)?.typed.quantity;
    if (of === undefined || quantity?.kind !== "known") return true;
    return of.some((name) => sameDimension(dimensionOf(name), quantity.dimension));
  };
  return references.declarations
    .filter(({ kind }) => kinds.some((wanted) => wanted === kind))
    .filter((declared) => isVisible(analysis, declared, cursor) && fits(declared))
    .map(({ name, detail }) => ({ text: name, detail }));
}

// A landmark is seen everywhere, a named value in the block that names it; neither in its own line.
function isVisible(analysis: Analysis, { kind, place }: Declaration, { typed, shaped }: Inside): boolean {
  const path = pathTo(analysis, place.span.start);
  const block = path.at(-2)?.statement;
  if (path.at(-1)?.statement.word.span.start === shaped.statement.word.span.start) return false;
  return kind === "landmark" || block === undefined || holds(block.span, typed.start);
}

function declaredValues(analysis: Analysis, kind: NameKind): Value[] {
  return analysis.meaning.references.declarations
    .filter((declared) => declared.kind === kind)
    .map(({ name, detail }) => ({ text: name, detail }));
}

const waivableSlugs: ReadonlySet<string> = new Set(
  rules.flatMap(({ kind, slug }) => (kind === "plan" || kind === "text" ? [slug] : [])),
);

/** For a waiver the findings there are, first of all, as far as they may be waived; in a protocol all that its line does not name. */
function findingValues(analysis: Analysis, { shaped, around }: Inside): Value[] {
  if (shaped.statement.word.name === "waive") {
    const present = analysis.judgement.findings.map(({ slug, message }) => ({ text: slug, detail: message }));
    const others = rules.map(({ slug, title }) => ({ text: slug, detail: title }));
    const { document } = analysis.meaning;
    const refused: ReadonlyMap<string, unknown> = document?.kind === "plan" ? neverWaived(document) : new Map();
    return [...present, ...others].filter(({ text }) => waivableSlugs.has(text) && !refused.has(text));
  }
  const isGrade = shaped.statement.word.name === "grade";
  const listed = isGrade ? rules : rules.filter(({ slug }) => waivableSlugs.has(slug));
  const set = namesBeside(around, shaped);
  return listed.filter(({ slug }) => !set.has(slug)).map(({ slug, title }) => ({ text: slug, detail: title }));
}

function limitValues({ shaped, around }: Inside): Value[] {
  const set = namesBeside(around, shaped);
  const defaults = limitsOf([]);
  return limitTable
    .filter(({ name }) => !set.has(name))
    .map(({ name, title }) => ({ text: name, detail: `${title}: ${limitValue(defaults.get(name))}` }));
}

/** A hole is locked once in a block; only a locked one can be dynamised or taken out, and once. */
function holeValues(analysis: Analysis, cursor: Inside): Value[] {
  const holes = declaredValues(analysis, "hole");
  const { shaped, around } = cursor;
  if (shaped.statement.word.name === "lock") {
    const locked = namesBeside(around, shaped);
    return holes.filter(({ text }) => !locked.has(text));
  }
  const { document } = analysis.meaning;
  const steps = document?.kind === "plan" ? [document, ...document.fallbacks].flatMap(({ steps: all }) => all) : [];
  const locked = new Set(steps.flatMap((step) => (step.kind === "lock" ? [step.hole.text] : [])));
  const taken = new Set(beside(around, shaped).flatMap((other) => namesIn(other)));
  return holes.filter(({ text }) => locked.has(text) && !taken.has(text));
}

/** In a plan the families that the hole of this line takes. */
function familyValues(analysis: Analysis, { shaped }: Inside): Value[] {
  const families = declaredValues(analysis, "screws");
  const { document } = analysis.meaning;
  if (document?.kind !== "plan" || shaped.statement.word.name !== "lock") return families;
  const hole = document.nail?.holes.find(({ name }) => name.text === headName(shaped));
  const takes = new Set(hole?.takes.map(({ text }) => text));
  return hole === undefined ? families : families.filter(({ text }) => takes.has(text));
}

/** What a waiver may be limited to, or a protocol demand; a pseudonym is the writer's own. */
function wordValues(analysis: Analysis, { shaped, section }: Inside): Value[] {
  const { name } = shaped.statement.word;
  if (name === "waive") {
    const slug = itemName(section.written[0]);
    const places = analysis.judgement.findings.filter((finding) => finding.slug === slug);
    const told = places.flatMap(({ at, message }) => (at === undefined ? [] : [{ text: at, detail: message }]));
    return [...told, ...declaredValues(analysis, "hole")].filter(({ text }) => isWord(text));
  }
  return name === "demand" ? demandable() : [];
}

function demandable(): Value[] {
  const blocks = ["operation", "aftercare", "case", "images", "measures", "plan"];
  return blocks.flatMap((block) =>
    [...rulesOf(block).values()].flatMap((rule) => {
      if (rule.word === "let" || rule.word === "ask" || rule.word === "waive") return [];
      return [{ text: rule.word, detail: rule.doc }, ...(block === "operation" ? preparations(rule.word) : [])];
    }),
  );
}

function preparations(word: string): Value[] {
  const part = word === "prepare" ? rulesOf("operation").get(word)?.slots[0]?.part : undefined;
  const choice = part?.kind === "either" ? part.parts.find((way) => way.kind === "choice") : undefined;
  return choice?.kind === "choice" ? Object.entries(choice.words).map(([text, detail]) => ({ text, detail })) : [];
}

/** Group codes of the bone that the plan or the nail is for, or of the fibula. */
export function codeValues(analysis: Analysis, cursor: Inside, bones: "main" | "fibula" | "any"): Value[] {
  const { document } = analysis.meaning;
  const parent = cursor.around.at(-1);
  const bone = document?.kind === "plan" ? document.case?.bone?.text : boneOfNail(parent);
  const listed = new Set(cursor.section.written.flatMap((item) => (item.kind === "code" ? [item.text] : [])));
  const wanted = (of: string): boolean =>
    bones === "fibula" ? of === "fibula" : of !== "fibula" && (bone === undefined || of === bone);
  return codeGroups
    .filter((group) => wanted(group.bone) && !listed.has(group.code))
    .map(({ code, meaning }) => ({ text: code, detail: meaning }));
}

function boneOfNail(nail: ShapedStatement | undefined): string | undefined {
  const own = nail?.children.find(({ statement }) => statement.word.name === "for");
  return own === undefined ? undefined : headName(own);
}

/** The other statements of the same word in the block. */
function beside(around: readonly ShapedStatement[], shaped: ShapedStatement): readonly ShapedStatement[] {
  const { word } = shaped.statement;
  return (around.at(-1)?.children ?? []).filter(
    ({ statement }) => statement.word.name === word.name && statement.word.span.start !== word.span.start,
  );
}

function namesBeside(around: readonly ShapedStatement[], shaped: ShapedStatement): ReadonlySet<string> {
  return new Set(beside(around, shaped).flatMap((other) => headName(other) ?? []));
}

function namesIn(shaped: ShapedStatement): readonly string[] {
  const names = (items: Iterable<readonly Item[]>): string[] =>
    [...items].flat().flatMap((item) => itemName(item) ?? []);
  return [...statementsOf([shaped])].flatMap(({ slots, clauses }) => [
    ...names(slots.values()),
    ...clauses.flatMap((clause) => names(clause.slots.values())),
  ]);
}
