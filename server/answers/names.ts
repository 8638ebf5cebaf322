/**
 * A name at an offset and every place that says it: in its own text, or over a library of files for what a catalogue or the tool
 * gives. What the names mean was resolved before; here they are only looked up.
 */
import type { Span } from "../../grammar/tree.ts";
import type { NameKind } from "../../grammar/vocabulary/rule.ts";
import type { Place } from "../meaning/plan.ts";
import type { Analysis } from "./analyse.ts";
import { type CitedHere, citedIn, type Facts, factsOf, pathsIn } from "./facts.ts";
import { holds } from "./statements.ts";

export interface NamedHere {
  readonly name: string;
  /** `file` is a document named by the path to it or by its title, `citation` a key of a bibliography. */
  readonly kind: NameKind | "file" | "citation";
  /** Undefined for what the tool itself gives, and for a name that nothing gives. */
  readonly declared: Place | undefined;
  /** Where it stands at the offset. */
  readonly span: Span;
}

export interface Mention {
  readonly place: Place;
  readonly declares: boolean;
}

export function nameAt(analysis: Analysis, offset: number): NamedHere | undefined {
  const { file, meaning } = analysis;
  const { uses, declarations } = meaning.references;
  const use = uses.find(({ span }) => holds(span, offset));
  if (use !== undefined) return use;
  const own = declarations.find(({ place }) => place.file === file && holds(place.span, offset));
  if (own !== undefined) return { name: own.name, kind: own.kind, declared: own.place, span: own.place.span };
  return fileAt(analysis, offset) ?? citationAt(analysis, offset);
}

function citationAt({ text, meaning }: Analysis, offset: number): NamedHere | undefined {
  const cited = citedIn(text, meaning.document).find(({ span }) => holds(span, offset));
  return cited && { name: cited.key, kind: "citation", declared: cited.leads, span: cited.span };
}

function fileAt(analysis: Analysis, offset: number): NamedHere | undefined {
  const { document } = analysis.meaning;
  const path = pathsIn(document).find(({ place, leads }) => leads !== undefined && holds(place.span, offset));
  if (path !== undefined) return { name: path.path, kind: "file", declared: path.leads, span: path.place.span };
  if (document === undefined || document.kind === "plan") return undefined;
  const { title } = document;
  if (title.text === "" || !holds(title.place.span, offset)) return undefined;
  return { name: title.text, kind: "file", declared: title.place, span: title.place.span };
}

/** True for names that other files may say too. */
export function isShared({ kind }: Pick<NamedHere, "kind">): boolean {
  return kind !== "value" && kind !== "landmark" && kind !== "view";
}

/** Every mention in these files, in the order of each text; the declaration is among them when its file is. */
export function mentionsOf(name: NamedHere, files: readonly Facts[], here: string): readonly Mention[] {
  const { declared } = name;
  return files.flatMap(({ file, references, paths, citations }) => {
    const spans = [
      ...(name.kind === "file" ? paths.filter(({ leads }) => samePlace(leads, declared)).map(spanOf) : []),
      ...(name.kind === "citation" ? citations.filter((each) => isSameEntry(each, name, file === here)) : []).map(
        ({ span }) => span,
      ),
    ];
    const uses = references.uses
      .filter((use) => use.kind === name.kind && isSame(use, name, file === here))
      .map(({ span }) => span);
    const own = declared?.file === file ? [{ place: declared, declares: true }] : [];
    const others = [...spans, ...uses].map((span) => ({ place: { file, span }, declares: false }));
    return [...own, ...others].sort((a, b) => a.place.span.start - b.place.span.start);
  });
}

/** Mentions in the analysis's own text. */
export function mentionsHere(analysis: Analysis, name: NamedHere): readonly Mention[] {
  return mentionsOf(name, [factsOf(analysis)], analysis.file);
}

function spanOf({ place }: { readonly place: Place }): Span {
  return place.span;
}

/** Findings, limits and words of the tool are the same everywhere; a name that nothing gives is only like itself in its own text. */
function isSame(
  use: { readonly name: string; readonly kind: NameKind; readonly declared: Place | undefined },
  name: NamedHere,
  isOwn: boolean,
): boolean {
  if (name.declared !== undefined) return samePlace(use.declared, name.declared);
  const isOfTool = name.kind === "finding" || name.kind === "limit";
  return use.declared === undefined && use.name === name.name && (isOfTool || isOwn);
}

/** A key that no bibliography has is only like itself in its own text. */
function isSameEntry({ key, leads }: CitedHere, name: NamedHere, isOwn: boolean): boolean {
  return name.declared === undefined
    ? isOwn && leads === undefined && key === name.name
    : samePlace(leads, name.declared);
}

function samePlace(a: Place | undefined, b: Place | undefined): boolean {
  return a !== undefined && b !== undefined && a.file === b.file && a.span.start === b.span.start;
}
