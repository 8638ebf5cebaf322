/**
 * The `measures` block: landmarks, widths of canal and bone, and the ends of the bone, all as true lengths along one axis.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import { unknown } from "../quantity/arithmetic.ts";
import { valueOfName, viewsIn } from "./evaluate.ts";
import type { NamedEntry } from "./names.ts";
import type { Landmark, Measures, Typed, Width } from "./plan.ts";
import { lineSpan, placeOf, type Reader, said, typed, within } from "./read.ts";
import { readingBehind } from "./readings.ts";
import { childOf, childrenOf, clauseOf } from "./slots.ts";

export function measuresOf(outer: Reader, block: ShapedStatement | undefined): Measures {
  const reader = block === undefined ? outer : within(outer, block);
  return {
    place: block === undefined ? undefined : placeOf(reader, lineSpan(block)),
    landmarks: landmarksOf(reader),
    canals: childrenOf(block, "canal").map((line) => widthOf(reader, line, "canal")),
    bones: childrenOf(block, "bone").map((line) => widthOf(reader, line, "bone")),
    epiphyses: childrenOf(block, "epiphysis").flatMap((line) => epiphysisOf(reader, line)),
    nailLength: typed(reader, childOf(block, "nail-length"), "length", "nail length"),
  };
}

/** From the gathered names, so that the value a name stands for and the landmark are one and the same. */
function landmarksOf(reader: Reader): readonly Landmark[] {
  const entries = reader.names.entries.filter((entry) => entry.kind === "landmark");
  return entries.toSorted((a, b) => a.word.span.start - b.word.span.start).map((entry) => landmarkOf(reader, entry));
}

function landmarkOf(reader: Reader, entry: NamedEntry): Landmark {
  const { word, item, statement } = entry;
  const place = placeOf(reader, (item ?? word).span);
  const quantity = valueOfName(reader, entry);
  const reading = readingBehind(reader, item, quantity);
  return {
    name: { text: word.name, place: placeOf(reader, word.span) },
    level: { quantity, place, ...(reading === undefined ? {} : { reading }) },
    place: placeOf(reader, lineSpan(statement)),
  };
}

function widthOf(reader: Reader, line: ShapedStatement, what: "canal" | "bone"): Width {
  const at = readingName(line);
  const side = (word: "width" | "depth"): { readonly typed: Typed | undefined; readonly views: readonly string[] } => {
    const clause = clauseOf(line, word);
    const views = viewsIn(clause?.slots.get(word)?.[0], reader.scope);
    return { typed: typed(reader, clause, word, `${what} ${word}${at}`), views };
  };
  const [width, depth] = [side("width"), side("depth")];
  const place = placeOf(reader, lineSpan(line));
  const level = typed(reader, line, "level", `level of ${what} width`);
  return {
    level: level ?? { quantity: unknown(`the level of a ${what} width is not given`), place },
    width: width.typed,
    depth: depth.typed,
    widthViews: width.views,
    depthViews: depth.views,
    place,
  };
}

/** " at 205 mm" for a level typed as a plain quantity, so that a budget tells one width from another. */
function readingName(line: ShapedStatement): string {
  const item = line.slots.get("level")?.[0];
  if (item?.kind === "quantity" && item.unit !== undefined) {
    return ` at ${item.number.text} ${item.unit.unit}`;
  }
  return item?.kind === "word" ? ` at ${item.name}` : "";
}

function epiphysisOf(reader: Reader, line: ShapedStatement): Measures["epiphyses"] {
  const end = said(reader, line, "end");
  const size = typed(reader, line, "width", `${end?.text ?? "epiphysis"} end of the bone`);
  return end === undefined || size === undefined ? [] : [{ end, size, place: placeOf(reader, lineSpan(line)) }];
}
