/**
 * Questions for learners, from whichever block they stand in, in the order of the text.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import { lineSpan, placeOf, type Reader, said, saidOfClause } from "./read.ts";
import type { Question } from "./record.ts";
import { childrenOf, clauseOf } from "./slots.ts";

export function questionsOf(reader: Reader, block: ShapedStatement): readonly Question[] {
  return block.children.flatMap((child) =>
    child.rule?.word === "ask" ? [questionOf(reader, child)] : questionsOf(reader, child),
  );
}

function questionOf(reader: Reader, block: ShapedStatement): Question {
  const place = placeOf(reader, lineSpan(block));
  const answers = childrenOf(block, "answer").flatMap((line) => {
    const text = said(reader, line, "answer");
    const right = clauseOf(line, "right") !== undefined;
    return text === undefined ? [] : [{ text, right, because: saidOfClause(reader, line, "because") }];
  });
  return { text: said(reader, block, "question") ?? { text: "", place }, answers, place };
}
