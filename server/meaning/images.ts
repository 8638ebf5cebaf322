/**
 * The `images` block: each view with its marker and its magnification, which every reading on that view is divided by.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { isTrueSize, magnificationOf } from "./evaluate.ts";
import type { ViewEntry } from "./names.ts";
import type { Typed, View } from "./plan.ts";
import { lineSpan, placeOf, type Reader } from "./read.ts";
import { clauseOf, firstItem } from "./slots.ts";

/** The views in the order of the text; a view described twice counts as it was described first. */
export function viewsOf(reader: Reader): readonly View[] {
  return [...reader.names.views.values()].map((view) => viewOf(reader, view));
}

function viewOf(reader: Reader, view: ViewEntry): View {
  const magnification = magnificationOf(reader, view);
  const { statement, word } = view;
  return {
    name: { text: word.name, place: placeOf(reader, word.span) },
    marker: clauseValue(reader, statement, "marker", view.marker),
    seen: clauseValue(reader, statement, "seen", view.seen),
    trueSize: isTrueSize(view),
    magnification,
    place: placeOf(reader, lineSpan(statement)),
  };
}

/** The value was reckoned with the magnification; here it gets its place. */
function clauseValue(
  reader: Reader,
  statement: ShapedStatement,
  word: "marker" | "seen",
  quantity: Quantity | undefined,
): Typed | undefined {
  const clause = clauseOf(statement, word);
  const item = clause === undefined ? undefined : firstItem(clause);
  return item === undefined || quantity === undefined ? undefined : { quantity, place: placeOf(reader, item.span) };
}
