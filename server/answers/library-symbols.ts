/** Names of a whole library that a query finds: documents by their titles, nails, holes, screws, landmarks, values and views. */
import type { NameKind } from "../../grammar/vocabulary/rule.ts";
import type { Place } from "../meaning/plan.ts";
import type { Facts } from "./facts.ts";

export interface LibrarySymbol {
  readonly name: string;
  readonly kind: NameKind | "plan" | "catalogue" | "protocol";
  /** In plain words what it is or is worth. */
  readonly detail: string;
  /** Title of the document it stands in; empty for a document itself. */
  readonly inside: string;
  readonly place: Place;
}

/** Every symbol whose name holds the letters of the query in their order, whatever their case; an empty query finds all. */
export function symbolsMatching(files: readonly Facts[], query: string): readonly LibrarySymbol[] {
  return files.flatMap(symbolsOf).filter(({ name }) => holdsInOrder(name.toLowerCase(), query.toLowerCase()));
}

function symbolsOf({ file, kind, title, references }: Facts): readonly LibrarySymbol[] {
  if (kind === undefined || title === undefined) return [];
  const own = references.declarations.filter(({ place }) => place.file === file);
  const document = { name: title.text === "" ? kind : title.text, kind, detail: kind, inside: "", place: title.place };
  return [document, ...own.map((each) => ({ ...each, inside: title.text }))];
}

function holdsInOrder(text: string, wanted: string): boolean {
  let at = 0;
  for (const letter of wanted) {
    const found = text.indexOf(letter, at);
    if (found < 0) return false;
    at = found + letter.length;
  }
  return true;
}
