/**
 * The steps of an operation, of a fallback and of what was achieved, in the order they stand: each word of a step to its record.
 * Whether the order is sound is judged elsewhere.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import { unknown } from "../quantity/arithmetic.ts";
import { alignmentOf } from "./alignment.ts";
import type {
  Achieved,
  BlockStep,
  CapStep,
  EnterStep,
  Fallback,
  LockStep,
  NailStep,
  Place,
  PositionStep,
  ReduceStep,
  SizeList,
  Step,
} from "./plan.ts";
import {
  directed,
  lineSpan,
  placeOf,
  type Reader,
  said,
  saidOfClause,
  saidsOfClause,
  sizes,
  things,
  typed,
  typedClause,
  within,
} from "./read.ts";
import { childOf, clauseOf } from "./slots.ts";

/** The steps inside a block; lines that are no steps (values, questions) are left to others. */
export function stepsOf(outer: Reader, block: ShapedStatement | undefined): readonly Step[] {
  if (block === undefined) {
    return [];
  }
  const reader = within(outer, block);
  return block.children.flatMap((line) => stepOf(reader, line) ?? []);
}

export function fallbackOf(reader: Reader, block: ShapedStatement): Fallback {
  const place = placeOf(reader, lineSpan(block));
  return { when: said(reader, block, "when") ?? { text: "", place }, steps: stepsOf(reader, block), place };
}

export function achievedOf(outer: Reader, block: ShapedStatement | undefined): Achieved | undefined {
  if (block === undefined) {
    return undefined;
  }
  const alignment = alignmentOf(within(outer, block), childOf(block, "alignment"));
  return { steps: stepsOf(outer, block), alignment, place: placeOf(outer, lineSpan(block)) };
}

interface Places {
  readonly place: Place;
  readonly wordPlace: Place;
}

function stepOf(reader: Reader, line: ShapedStatement): Step | undefined {
  const places: Places = {
    place: placeOf(reader, lineSpan(line)),
    wordPlace: placeOf(reader, line.statement.word.span),
  };
  switch (line.rule?.word) {
    case "prepare":
      return { kind: "prepare", things: things(reader, line, "things"), ...places };
    case "position":
      return positionOf(reader, line, places);
    case "reduce":
      return reduceOf(reader, line, places);
    case "enter":
      return enterOf(reader, line, places);
    case "wire":
      return { kind: "wire", tip: said(reader, line, "tip"), ...places };
    case "ream": {
      const heads = sizes(reader, line, "heads", "reamer head");
      return { kind: "ream", heads: heads ?? noHeads(places.place), ...places };
    }
    case "unreamed":
      return { kind: "unreamed", ...places };
    case "nail":
      return nailOf(reader, line, places);
    case "block":
      return blockOf(reader, line, places);
    case "lock":
      return lockOf(reader, line, places);
    case "compress":
      return { kind: "compress", amount: typed(reader, line, "amount", "compression"), ...places };
    case "backslap":
      return { kind: "backslap", amount: typed(reader, line, "amount", "backslap"), ...places };
    case "cap":
      return capOf(reader, line, places);
    case "check":
      return { kind: "check", things: things(reader, line, "things"), ...places };
    case "step":
      return { kind: "step", text: said(reader, line, "text"), ...places };
    default:
      return undefined;
  }
}

/** A reaming whose heads are not given is a reaming all the same, to a head nobody knows. */
function noHeads(place: Place): SizeList {
  return { sizes: [{ quantity: unknown("the reamer heads are not given"), place }], place };
}

function positionOf(reader: Reader, line: ShapedStatement, places: Places): PositionStep {
  return {
    kind: "position",
    posture: said(reader, line, "posture"),
    table: saidOfClause(reader, line, "table"),
    support: saidOfClause(reader, line, "support"),
    knee: typedClause(reader, line, "knee", "knee on the table"),
    ...places,
  };
}

function reduceOf(reader: Reader, line: ShapedStatement, places: Places): ReduceStep {
  const [using, hold] = [saidsOfClause(reader, line, "using"), saidsOfClause(reader, line, "hold")];
  return { kind: "reduce", how: said(reader, line, "how"), using, hold, ...places };
}

function enterOf(reader: Reader, line: ShapedStatement, places: Places): EnterStep {
  const slots = { amount: "distance", direction: "direction" };
  const fromMidline = directed(reader, clauseOf(line, "from-midline"), slots, "entry from midline");
  return { kind: "enter", approach: said(reader, line, "approach"), fromMidline, ...places };
}

function nailOf(reader: Reader, line: ShapedStatement, places: Places): NailStep {
  return {
    kind: "nail",
    name: said(reader, line, "nail"),
    diameter: typedClause(reader, line, "diameter", "nail diameter"),
    length: typedClause(reader, line, "length", "nail length"),
    sunk: typedClause(reader, line, "sunk", "sunk"),
    ...places,
  };
}

function blockOf(reader: Reader, line: ShapedStatement, places: Places): BlockStep {
  const screw = clauseOf(line, "screw");
  return {
    kind: "block",
    level: typed(reader, line, "level", "level of blocking screw"),
    side: saidOfClause(reader, line, "side"),
    family: said(reader, screw, "family"),
    screw: typed(reader, screw, "length", "blocking screw"),
    ...places,
  };
}

/** A lock without a hole is no step yet: it is told as missing and says nothing about any screw. */
function lockOf(reader: Reader, line: ShapedStatement, places: Places): LockStep | undefined {
  const hole = said(reader, line, "hole");
  if (hole === undefined) {
    return undefined;
  }
  const screw = clauseOf(line, "screw");
  return {
    kind: "lock",
    hole,
    drilled: typedClause(reader, line, "drilled", `drilled at ${hole.text}`),
    family: said(reader, screw, "family"),
    screw: typed(reader, screw, "length", `screw at ${hole.text}`),
    grip: saidOfClause(reader, line, "grip")?.text === "near" ? "near" : "both",
    ...places,
  };
}

function capOf(reader: Reader, line: ShapedStatement, places: Places): CapStep {
  const none = said(reader, line, "extension")?.text === "none";
  const extension = none ? undefined : typed(reader, line, "extension", "cap");
  return { kind: "cap", extension, none, ...places };
}
