/**
 * Every list of sizes in a document with the words for it: those of a catalogue, and the reamer heads of a plan. Nothing is judged.
 */
import type { Catalogue, Document, Plan, SizeList, Step } from "../meaning/plan.ts";

export interface ListedLine {
  /** "the lengths of nail fenwick": to stand inside a sentence. */
  readonly words: string;
  readonly list: SizeList;
}

/** The lists of a document in the order of its parts; a protocol has none. */
export function listsOf(document: Document): readonly ListedLine[] {
  switch (document.kind) {
    case "catalogue":
      return catalogueLists(document);
    case "plan":
      return planLists(document);
    case "protocol":
      return [];
  }
}

function catalogueLists({ nails, screws, reamers }: Catalogue): readonly ListedLine[] {
  return [
    ...nails.flatMap(({ name, diameters, lengths, caps }) => [
      ...line(`the diameters of nail ${name.text}`, diameters),
      ...line(`the lengths of nail ${name.text}`, lengths),
      ...line(`the caps of nail ${name.text}`, caps),
    ]),
    ...screws.flatMap(({ name, lengths, withDiameters }) => [
      ...line(`the lengths of screw ${name.text}`, lengths),
      ...line(`the nail diameters of screw ${name.text}`, withDiameters),
    ]),
    ...reamers.flatMap(({ heads, frontCutting }) => [
      ...line("the reamer heads", heads),
      ...line("the front-cutting heads", frontCutting),
    ]),
  ];
}

function planLists({ steps, fallbacks, achieved }: Plan): readonly ListedLine[] {
  const all: readonly Step[] = [...steps, ...fallbacks.flatMap((each) => each.steps), ...(achieved?.steps ?? [])];
  return all.flatMap((step) => (step.kind === "ream" ? line("the reamer heads", step.heads) : []));
}

function line(words: string, list: SizeList | undefined): readonly ListedLine[] {
  return list === undefined ? [] : [{ words, list }];
}
