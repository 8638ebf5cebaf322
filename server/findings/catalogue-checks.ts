/**
 * What the rules over a catalogue share: asking it alone, its sizes as lengths, and the words for a fault in it. The rules themselves
 * stand one to a file.
 */
import type { Catalogue, CatalogueHole, CatalogueNail, Document, Place, SizeList } from "../meaning/plan.ts";
import type { Known } from "../quantity/quantity.ts";
import type { Basis } from "../reckoning/reckoning.ts";
import type { TextRule, Verdict } from "./finding.ts";
import { clear, together } from "./judging.ts";
import { lengthsOf } from "./listed-sizes.ts";

/** What every rule over a catalogue is based on: its figures are held against each other, and against nothing else. */
export const ownFigures: Basis = { mark: "catalogue", text: "the catalogue's own figures, held against each other" };

/** A rule that needs no more of a document than what it means, so that a plan can ask it about a catalogue it reads. */
export type OwnFiguresRule = Omit<TextRule, "check"> & { readonly check: (document: Document) => Verdict };

/** Runs a check over a catalogue; a plan and a protocol have nothing of the kind. */
export function overCatalogue(check: (catalogue: Catalogue) => Verdict): (document: Document) => Verdict {
  return (document) => (document.kind === "catalogue" ? check(document) : clear);
}

/** Runs a check over each nail of a catalogue. */
export function overNails(
  check: (nail: CatalogueNail, catalogue: Catalogue) => Verdict,
): (document: Document) => Verdict {
  return overCatalogue((catalogue) => together(catalogue.nails.map((nail) => check(nail, catalogue))));
}

export function shortest(list: SizeList | undefined): Known | undefined {
  return lengthsOf(list)[0];
}

export function longest(list: SizeList | undefined): Known | undefined {
  return lengthsOf(list).at(-1);
}

/** Where the whole list stands, as the related place of a finding about one of its sizes. */
export function aboutList(list: SizeList | undefined, message: string): readonly { place: Place; message: string }[] {
  return list === undefined ? [] : [{ place: list.place, message }];
}

/** The families of a hole by their names, each once. */
export function familiesOf(hole: CatalogueHole): ReadonlySet<string> {
  return new Set(hole.takes.map(({ text }) => text));
}
