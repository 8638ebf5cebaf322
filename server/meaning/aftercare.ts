/**
 * The `aftercare` block: loading, watching, reviews, dynamisation and advice as stated.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import type { Aftercare } from "./plan.ts";
import { lineSpan, placeOf, type Reader, said, saidsOfClause, sizes, typed, typedClause, within } from "./read.ts";
import { childOf, childrenOf } from "./slots.ts";

export function aftercareOf(outer: Reader, block: ShapedStatement | undefined): Aftercare | undefined {
  if (block === undefined) {
    return undefined;
  }
  const reader = within(outer, block);
  return {
    place: placeOf(reader, lineSpan(block)),
    bearing: childrenOf(block, "weight-bearing").flatMap((line) => bearingOf(reader, line)),
    watches: childrenOf(block, "watch").flatMap((line) => watchOf(reader, line)),
    reviews: childrenOf(block, "review").flatMap((line) => sizes(reader, line, "times", "review")?.sizes ?? []),
    dynamise: dynamisationOf(reader, childOf(block, "dynamise")),
    advice: childrenOf(block, "advise").flatMap((line) => said(reader, line, "text") ?? []),
  };
}

function bearingOf(reader: Reader, line: ShapedStatement): Aftercare["bearing"] {
  const how = said(reader, line, "how");
  if (how === undefined) {
    return [];
  }
  const load = typed(reader, line, "load", "load");
  const until = typedClause(reader, line, "until", "end of the period");
  return [{ how, load, until, place: placeOf(reader, lineSpan(line)) }];
}

function watchOf(reader: Reader, line: ShapedStatement): Aftercare["watches"] {
  const what = said(reader, line, "what");
  if (what === undefined) {
    return [];
  }
  const diastolic = typedClause(reader, line, "diastolic", "diastolic pressure");
  const pressure = typedClause(reader, line, "pressure", "compartment pressure");
  return [{ what, diastolic, pressure, place: placeOf(reader, lineSpan(line)) }];
}

function dynamisationOf(reader: Reader, line: ShapedStatement | undefined): Aftercare["dynamise"] {
  if (line === undefined) {
    return undefined;
  }
  const at = typed(reader, line, "time", "dynamisation");
  return { at, remove: saidsOfClause(reader, line, "remove"), place: placeOf(reader, lineSpan(line)) };
}
