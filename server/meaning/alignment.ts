/**
 * The `alignment` line, as injured or as achieved: amounts with their directions, as typed. True angle and plane are reckoned
 * elsewhere.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import type { Alignment, Directed } from "./plan.ts";
import { directed, lineSpan, placeOf, type Reader, typed } from "./read.ts";
import { clauseOf } from "./slots.ts";

export function alignmentOf(reader: Reader, line: ShapedStatement | undefined): Alignment | undefined {
  if (line === undefined) {
    return undefined;
  }
  const plane = (word: string): Directed | undefined => directed(reader, clauseOf(line, word), inPlane, word);
  return {
    coronal: plane("coronal"),
    sagittal: plane("sagittal"),
    rotation: plane("rotation"),
    length: lengthOf(reader, line, "short") ?? lengthOf(reader, line, "long"),
    place: placeOf(reader, lineSpan(line)),
  };
}

const inPlane = { amount: "amount", direction: "direction" };

/** The clause's own word is the direction. */
function lengthOf(reader: Reader, line: ShapedStatement, word: "short" | "long"): Directed | undefined {
  const clause = clauseOf(line, word);
  const amount = typed(reader, clause, "amount", word);
  if (clause === undefined || amount === undefined) {
    return undefined;
  }
  return { amount, direction: { text: word, place: placeOf(reader, clause.word.span) } };
}
