/**
 * Every name of a document with the places that declare it and use it, for whoever looks names up or changes them. It resolves
 * and judges nothing more than which declaration a use means.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import type { Span, Word } from "../../grammar/tree.ts";
import type { NameKind } from "../../grammar/vocabulary/rule.ts";
import { print } from "../quantity/print.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { usualUnit } from "../quantity/units.ts";
import { magnificationOf, valueOfName } from "./evaluate.ts";
import type { Catalogue, CatalogueHole, CatalogueNail, Document, Place, ScrewFamily, Typed } from "./plan.ts";
import { placeOf, type Reader } from "./read.ts";
import { namedWords } from "./slots.ts";

export interface Declaration {
  readonly name: string;
  readonly kind: NameKind;
  readonly place: Place;
  /** In plain words what it is or is worth: "361.74 mm ± 3.06 mm". */
  readonly detail: string;
}

export interface Use {
  readonly name: string;
  readonly kind: NameKind;
  readonly span: Span;
  /** Undefined when nothing read declares it: findings, limits and words are declared by the tool itself. */
  readonly declared: Place | undefined;
}

export interface References {
  /** Those of this document first, then those of the catalogues it uses. */
  readonly declarations: readonly Declaration[];
  /** In the order of the text; all in this document's own file. */
  readonly uses: readonly Use[];
}

export const noReferences: References = { declarations: [], uses: [] };

export function referencesOf(reader: Reader, opening: ShapedStatement, document: Document): References {
  const declarations = [...ownDeclarations(reader), ...catalogueDeclarations(document)];
  const uses = [...expressionUses(reader), ...slotUses(opening, declarations)];
  return { declarations, uses: uses.sort((a, b) => a.span.start - b.span.start) };
}

function ownDeclarations(reader: Reader): readonly Declaration[] {
  const values = reader.names.entries.map((entry): Declaration => {
    const place = placeOf(reader, entry.word.span);
    return { name: entry.word.name, kind: entry.kind, place, detail: quantityText(valueOfName(reader, entry)) };
  });
  const views = [...reader.names.views.values()].map((view): Declaration => {
    const detail = `magnification ${quantityText(magnificationOf(reader, view))}`;
    return { name: view.word.name, kind: "view", place: placeOf(reader, view.word.span), detail };
  });
  return [...values, ...views].sort((a, b) => a.place.span.start - b.place.span.start);
}

/** A plan sees the holes of its own nail alone; a catalogue all of its holes. */
function catalogueDeclarations(document: Document): readonly Declaration[] {
  switch (document.kind) {
    case "protocol":
      return [];
    case "catalogue":
      return [...partsOf(document), ...document.nails.flatMap(holesOf)];
    case "plan": {
      const parts = document.uses.flatMap((used) => (used.document === undefined ? [] : partsOf(used.document)));
      return document.nail === undefined ? parts : [...parts, ...holesOf(document.nail)];
    }
  }
}

function partsOf(catalogue: Catalogue): readonly Declaration[] {
  const title = catalogue.title.text;
  const nails = catalogue.nails.map((nail) => declaration(nail, "nail", `nail of ${title}`));
  return [...nails, ...catalogue.screws.map((family) => declaration(family, "screws", `screws of ${title}`))];
}

function holesOf(nail: CatalogueNail): readonly Declaration[] {
  return nail.holes.map((hole) => declaration(hole, "hole", holeText(hole)));
}

function declaration(part: CatalogueNail | ScrewFamily | CatalogueHole, kind: NameKind, detail: string): Declaration {
  return { name: part.name.text, kind, place: part.name.place, detail };
}

function holeText(hole: CatalogueHole): string {
  const from = hole.end === undefined ? [] : [`${typedText(hole.distance)} from the ${hole.end}`];
  const runs = hole.runs === undefined ? [] : [hole.runs];
  const slot = hole.slot === undefined ? [] : [`slot of ${typedText(hole.slot)}`];
  const takes = hole.takes.length === 0 ? [] : [`takes ${hole.takes.map((family) => family.text).join(", ")}`];
  return [...from, ...runs, ...slot, ...takes].join(", ");
}

function expressionUses(reader: Reader): readonly Use[] {
  const given = [...reader.names.entries, ...reader.names.views.values()].flatMap((entry) => {
    const kind: NameKind = "kind" in entry ? entry.kind : "view";
    const declared = placeOf(reader, entry.word.span);
    return entry.uses.map((span): Use => ({ name: entry.word.name, kind, span, declared }));
  });
  const strays = reader.strays.map(({ kind, word }): Use => use(word, kind, undefined));
  return [...given, ...strays];
}

/** Names in slots: holes, nails, families, findings, limits, and words that may be any of those. */
function slotUses(opening: ShapedStatement, declarations: readonly Declaration[]): readonly Use[] {
  const byName = new Map<string, Declaration[]>();
  for (const declared of declarations) {
    byName.set(declared.name, [...(byName.get(declared.name) ?? []), declared]);
  }
  const uses: Use[] = [];
  const walk = (statement: ShapedStatement): void => {
    for (const { name, word } of namedWords(statement)) {
      const candidates = byName.get(word.name) ?? [];
      const meant = candidates.find(({ kind }) => kind === name) ?? (name === "word" ? candidates[0] : undefined);
      uses.push(use(word, meant?.kind ?? name, meant?.place));
    }
    statement.children.forEach(walk);
  };
  walk(opening);
  return uses;
}

function use(word: Word, kind: NameKind, declared: Place | undefined): Use {
  return { name: word.name, kind, span: word.span, declared };
}

function typedText(typed: Typed | undefined): string {
  return typed === undefined ? "unknown" : quantityText(typed.quantity);
}

/** In the unit it was typed in, else the usual one. */
function quantityText(quantity: Quantity): string {
  if (quantity.kind === "unknown") {
    return "unknown";
  }
  return print(quantity, quantity.typed?.unit ?? usualUnit(quantity.dimension)?.word ?? "1");
}
