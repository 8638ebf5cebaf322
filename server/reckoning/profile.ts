/**
 * The canal or the bone as a shape along its axis: between two given levels its width and depth change in a straight line, outside
 * them they are held constant and that is said. Each cross-section is an ellipse, and chords of it are the path of a screw.
 */
import type { CatalogueHole, Width } from "../meaning/plan.ts";
import { add, compare, divide, multiply, plain, subtract, unknown } from "../quantity/arithmetic.ts";
import { cosine, hypotenuse, maximum, sine } from "../quantity/elementary.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity, Unknown } from "../quantity/quantity.ts";
import { readOperand } from "./as-read.ts";
import { type Size, sizesIn } from "./given.ts";
import {
  called,
  fixedOperand,
  givenOperand,
  type KnownOperand,
  type Operand,
  typedOperand,
  unknownOperand,
  type Written,
  written,
  writtenAfter,
} from "./writing.ts";

type Side = "width" | "depth";

/** Widths and depths from the driving end to the tip; unknown when none is given or one of those given is unknown. */
export interface Shape {
  readonly width: Nodes | Unknown;
  readonly depth: Nodes | Unknown;
  readonly what: string;
}

type Nodes = readonly [Node, ...Node[]];

export interface Node {
  readonly level: KnownOperand;
  readonly size: KnownOperand;
}

/** A width or a depth at one level, and how it was come by where it was not read at that very level. */
export interface Reach extends Operand {
  readonly how: (() => string) | undefined;
}

/** The shape these widths describe; `what` names it: "canal", "bone". */
export function shapeOf(widths: readonly Width[], what: string): Shape {
  const sizes = sizesIn(widths);
  return { width: nodesOf(sizes, "width", what), depth: nodesOf(sizes, "depth", what), what };
}

/** The levels at which this side of the shape was read; none when it is unknown. */
export function levelsOf(shape: Shape, side: Side): readonly KnownOperand[] {
  const nodes = shape[side];
  return "kind" in nodes ? [] : nodes.map(({ level }) => level);
}

/** Whether a level lies at or between the readings of this side. */
export function spans(shape: Shape, side: Side, level: Known): boolean {
  const levels = levelsOf(shape, side);
  const [first, last] = [levels[0], levels.at(-1)];
  return (
    first !== undefined &&
    last !== undefined &&
    compare(first.quantity, level) <= 0 &&
    compare(level, last.quantity) <= 0
  );
}

/** The shape's width or depth at `level`, in mm. */
export function reachAt(shape: Shape, side: Side, level: Quantity): Reach {
  const nodes = shape[side];
  if ("kind" in nodes) {
    return { ...unknownOperand(side, nodes), how: undefined };
  }
  if (level.kind === "unknown") {
    return { ...unknownOperand(side, level), how: undefined };
  }
  const before = nodes.findLast((node) => compare(node.level.quantity, level) <= 0);
  if (before === undefined) {
    return held(shape.what, nodes[0]);
  }
  const after = nodes.find((node) => compare(node.level.quantity, level) >= 0);
  if (after === undefined) {
    return held(shape.what, before);
  }
  if (compare(before.level.quantity, after.level.quantity) >= 0) {
    return { ...before.size, how: undefined };
  }
  const how = (): string => {
    const [from, to] = [before, after].map((node) => printValue(node.level.quantity, "mm"));
    return `${shape.what} interpolated between ${from} and ${to}`;
  };
  const from = [before, after].flatMap(({ size, level: at }) => [...at.from, ...size.from]);
  return { ...fixedOperand(side, interpolated(before, after, level), "mm", from), how };
}

/** What is to be said of where these sizes were come by; undefined when each was read at its level. */
export function howReached(reaches: readonly Reach[]): (() => string) | undefined {
  const told = reaches.flatMap(({ how }) => how ?? []);
  return told.length === 0 ? undefined : () => [...new Set(told.map((how) => how()))].join("; ");
}

/**
 * Length of a screw's path through the shape at a level: the width from side to side, the depth from front to back, a chord through
 * the middle for an oblique hole (its angle from the width); longer by the hole's tilt. A shape that was reamed is nowhere narrower
 * than the `head`. In mm.
 */
export function chordOf(
  hole: CatalogueHole,
  shape: Shape,
  level: Quantity,
  head?: Quantity,
): { readonly answer: Quantity; readonly by: Written; readonly remark: (() => string) | undefined } {
  const read = sidesAlong(hole).map((side) => reachAt(shape, side, level));
  const reaches =
    head === undefined
      ? read
      : read.map((reach) => ({ ...reach, quantity: maximum([reach.quantity, head]), text: undefined }));
  const across = chordAcross(hole, reaches);
  const remark = howReached(reaches);
  if (hole.tilt === undefined) {
    return { ...across, remark };
  }
  const tilt = givenOperand("tilt", "deg", hole.tilt);
  const by = writtenAfter(across.by, written` / cos(${tilt})`);
  return { answer: divide(across.answer, cosine(tilt.quantity)), by, remark };
}

/** The sides of the bone that a screw through this hole runs along; none when its direction is not given. */
export function sidesAlong({ runs }: CatalogueHole): readonly Side[] {
  switch (runs) {
    case "medial-lateral":
      return ["width"];
    case "anterior-posterior":
      return ["depth"];
    case "oblique":
      return ["width", "depth"];
    case undefined:
      return [];
  }
}

function chordAcross(
  hole: CatalogueHole,
  [first, second]: readonly Operand[],
): { readonly answer: Quantity; readonly by: Written } {
  const undirected = `the direction of hole ${hole.name.text} is not given`;
  if (first === undefined) {
    const path = unknownOperand("path", unknown(undirected), [hole.place]);
    return { answer: path.quantity, by: written`${path}` };
  }
  if (second === undefined) {
    return { answer: first.quantity, by: written`${first}` };
  }
  const angle = typedOperand("angle", "deg", hole.oblique, undirected);
  // Where a size was read is too much in so long a formula.
  const [width, depth] = [called(first, first.name), called(second, second.name)];
  const along = divide(cosine(angle.quantity), first.quantity);
  const back = divide(sine(angle.quantity), second.quantity);
  return {
    answer: divide(plain(1), hypotenuse(along, back)),
    by: written`2 / √((cos(${angle}) / (${width} / 2))² + (sin(${angle}) / (${depth} / 2))²)`,
  };
}

function nodesOf(sizes: readonly Size[], side: Side, what: string): Nodes | Unknown {
  const nodes: Node[] = [];
  for (const size of sizes) {
    if (size.side !== side) {
      continue;
    }
    const at = givenOperand("level", "mm", size.level);
    const reach = readOperand(side, size.size);
    if (at.quantity.kind === "unknown") {
      return at.quantity;
    }
    if (reach.quantity.kind === "unknown") {
      return reach.quantity;
    }
    nodes.push({ level: { ...at, quantity: at.quantity }, size: { ...reach, quantity: reach.quantity } });
  }
  const [first, ...rest] = nodes.sort((a, b) => a.level.quantity.value - b.level.quantity.value);
  return first === undefined ? unknown(`no ${side} of the ${what} is given`) : [first, ...rest];
}

function held(what: string, node: Node): Reach {
  return { ...node.size, how: () => `${what} held constant beyond ${printValue(node.level.quantity, "mm")}` };
}

function interpolated(before: Node, after: Node, level: Known): Quantity {
  const span = subtract(after.level.quantity, before.level.quantity);
  const share = divide(subtract(level, before.level.quantity), span);
  const change = subtract(after.size.quantity, before.size.quantity);
  return add(before.size.quantity, multiply(change, share));
}
