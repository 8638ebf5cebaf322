/**
 * The `case` block: patient, bone, fracture and soft tissue as stated. Nothing is judged here.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import { alignmentOf } from "./alignment.ts";
import type { Case, Fracture, Said, Typed } from "./plan.ts";
import { ends, lineSpan, placeOf, type Reader, said, saidOfClause, typed, typedClause, within } from "./read.ts";
import { childOf, childrenOf, clauseOf } from "./slots.ts";

export function caseOf(outer: Reader, block: ShapedStatement | undefined): Case | undefined {
  if (block === undefined) {
    return undefined;
  }
  const reader = within(outer, block);
  const word = (line: string, slot: string): Said | undefined => said(reader, childOf(block, line), slot);
  const value = (line: string, slot: string, label: string): Typed | undefined =>
    typed(reader, childOf(block, line), slot, label);
  return {
    label: said(reader, block, "label") ?? { text: "", place: placeOf(reader, block.statement.word.span) },
    place: placeOf(reader, lineSpan(block)),
    side: word("side", "side"),
    bone: word("bone", "bone"),
    age: value("age", "age", "age"),
    weight: value("weight", "weight", "weight"),
    kneeFlexion: value("knee-flexion", "angle", "knee flexion"),
    growthPlates: word("growth-plates", "state"),
    boneQuality: word("bone-quality", "quality"),
    softTissue: softTissueOf(reader, childOf(block, "soft-tissue")),
    fracture: fractureOf(reader, childOf(block, "fracture")),
    alignment: alignmentOf(reader, childOf(block, "alignment")),
    concerns: childrenOf(block, "concern").flatMap((line) => said(reader, line, "concern") ?? []),
  };
}

function softTissueOf(reader: Reader, line: ShapedStatement | undefined): Case["softTissue"] {
  const kind = said(reader, line, "kind");
  if (line === undefined || kind === undefined) {
    return undefined;
  }
  return { kind, grade: said(reader, line, "grade"), place: placeOf(reader, lineSpan(line)) };
}

function fractureOf(reader: Reader, line: ShapedStatement | undefined): Fracture | undefined {
  if (line === undefined) {
    return undefined;
  }
  return {
    code: said(reader, line, "code"),
    ...ends(reader, clauseOf(line, "from"), "zone", "fracture"),
    gap: typedClause(reader, line, "gap", "gap"),
    contact: typedClause(reader, line, "contact", "contact"),
    fibula: saidOfClause(reader, line, "fibula"),
    place: placeOf(reader, lineSpan(line)),
  };
}
