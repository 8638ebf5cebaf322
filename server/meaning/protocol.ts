/**
 * A protocol: limits, grades and demands of a department, as stated. Which limits, profiles and findings there are is known
 * elsewhere.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import { closeDocument, titleOf } from "./opening.ts";
import type { LimitSetting, Protocol } from "./plan.ts";
import { ends, lineSpan, placeOf, type Reader, said, saidOfClause, saids, typed } from "./read.ts";
import { childrenOf } from "./slots.ts";

export function protocolOf(reader: Reader, opening: ShapedStatement): Protocol {
  const parts = {
    limits: childrenOf(opening, "limit").flatMap((line) => limitOf(reader, line)),
    grades: childrenOf(opening, "grade").flatMap((line) => gradeOf(reader, line)),
    demands: childrenOf(opening, "demand").flatMap((line) => saids(reader, line, "words")),
    neverWaived: childrenOf(opening, "never-waive").flatMap((line) => saids(reader, line, "findings")),
    profiles: childrenOf(opening, "profile").flatMap((line) => profileOf(reader, line)),
  };
  return {
    kind: "protocol",
    file: reader.file,
    title: titleOf(reader, opening),
    statement: opening.statement,
    ...parts,
    problems: closeDocument(reader),
  };
}

/** A limit without a name sets nothing; one whose bounds are missing is kept, for its bounds are unknown. */
function limitOf(reader: Reader, line: ShapedStatement): readonly LimitSetting[] {
  const name = said(reader, line, "name");
  if (name === undefined) {
    return [];
  }
  const both = ends(reader, line, "range", name.text);
  return [
    {
      name,
      least: both.from ?? typed(reader, line, "least", name.text),
      most: both.to ?? typed(reader, line, "most", name.text),
      because: saidOfClause(reader, line, "because"),
      source: saidOfClause(reader, line, "source"),
      place: placeOf(reader, lineSpan(line)),
    },
  ];
}

function profileOf(reader: Reader, line: ShapedStatement): Protocol["profiles"] {
  const name = said(reader, line, "name");
  return name === undefined ? [] : [{ name, place: placeOf(reader, lineSpan(line)) }];
}

function gradeOf(reader: Reader, line: ShapedStatement): Protocol["grades"] {
  const [finding, grade] = [said(reader, line, "finding"), said(reader, line, "grade")];
  const place = placeOf(reader, lineSpan(line));
  return finding === undefined || grade === undefined ? [] : [{ finding, grade, place }];
}
