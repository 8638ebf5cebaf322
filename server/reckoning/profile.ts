/**
 * The canal or the bone as a shape along its axis: between two given levels its width and depth change in a straight line, outside
 * them they are held constant and that is said. Each cross-section is an ellipse, and chords of it are the path of a screw.
 */
import type { CatalogueHole, Place, Width } from "../meaning/plan.ts";
import { add, compare, divide, multiply, plain, subtract, unknown } from "../quantity/arithmetic.ts";
import { cosine, hypotenuse, sine } from "../quantity/elementary.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { type Size, sizesIn } from "./given.ts";
import { isKnown, type KnownOperand, type Operand, typedOperand } from "./writing.ts";

type Side = "width" | "depth";

/** A width or a depth at one level, and how it was come by; `how` is empty where it was read at that very level. */
export interface Reach extends Operand {
  readonly how: string;
}

interface Node {
  readonly level: KnownOperand;
  readonly size: KnownOperand;
}

/**
 * The width or depth of `widths` at `level`, in mm; unknown when none is given or one of those given is unknown. `what` names the
 * shape: "canal", "bone".
 */
export function reachAt(widths: readonly Width[], side: Side, level: Quantity, what: string): Reach {
  const sizes = sizesIn(widths).filter((size) => size.side === side);
  const nodes = nodesOf(sizes);
  const reach = (quantity: Quantity, how = "", from: readonly Place[] = []): Reach => ({
    name: side,
    quantity,
    unit: "mm",
    from,
    how,
  });
  if (nodes.kind === "unknown") {
    return reach(unknown(nodes.because));
  }
  if (level.kind === "unknown") {
    return reach(level);
  }
  const before = nodes.list.filter((node) => compare(node.level.quantity, level) <= 0).at(-1);
  const after = nodes.list.find((node) => compare(node.level.quantity, level) >= 0);
  const only = before ?? after;
  if (only === undefined) {
    return reach(unknown(`no ${side} of the ${what} is given`));
  }
  if (before === undefined || after === undefined) {
    const how = `${what} held constant beyond ${printValue(only.level.quantity, "mm")}`;
    return reach(only.size.quantity, how, only.size.from);
  }
  if (compare(before.level.quantity, after.level.quantity) >= 0) {
    return reach(before.size.quantity, "", before.size.from);
  }
  const between = [before, after].map((node) => printValue(node.level.quantity, "mm")).join(" and ");
  const from = [...before.size.from, ...after.size.from];
  return reach(interpolated(before, after, level), `${what} interpolated between ${between}`, from);
}

/**
 * Length of a screw's path through an ellipse of this width and depth: the width itself from side to side, the depth from front to
 * back, a chord through the middle for an oblique hole (its angle from the width); longer by the hole's tilt. In mm.
 */
export function chord(hole: CatalogueHole, width: Quantity, depth: Quantity): Quantity {
  const across = chordAcross(hole, width, depth);
  return hole.tilt === undefined ? across : divide(across, cosine(hole.tilt.quantity));
}

function chordAcross(hole: CatalogueHole, width: Quantity, depth: Quantity): Quantity {
  switch (hole.runs) {
    case "medial-lateral":
      return width;
    case "anterior-posterior":
      return depth;
    case "oblique": {
      const angle = hole.oblique?.quantity ?? unknown(`the direction of hole ${hole.name.text} is not given`);
      return divide(plain(1), hypotenuse(divide(cosine(angle), width), divide(sine(angle), depth)));
    }
    case undefined:
      return unknown(`the direction of hole ${hole.name.text} is not given`);
  }
}

/** Which of the two sizes a hole's path needs. */
export function sidesOf(hole: CatalogueHole): readonly Side[] {
  switch (hole.runs) {
    case "medial-lateral":
      return ["width"];
    case "anterior-posterior":
      return ["depth"];
    default:
      return ["width", "depth"];
  }
}

type Nodes =
  | { readonly kind: "nodes"; readonly list: readonly Node[] }
  | { readonly kind: "unknown"; readonly because: string };

function nodesOf(sizes: readonly Size[]): Nodes {
  const list: Node[] = [];
  for (const { level, size, side } of sizes) {
    const node = { level: typedOperand("level", "mm", level, ""), size: typedOperand(side, "mm", size, "") };
    for (const { quantity } of [node.level, node.size]) {
      if (quantity.kind === "unknown") {
        return quantity;
      }
    }
    if (isKnown(node.level) && isKnown(node.size)) {
      list.push({ level: node.level, size: node.size });
    }
  }
  return { kind: "nodes", list: list.sort((a, b) => a.level.quantity.value - b.level.quantity.value) };
}

function interpolated(before: Node, after: Node, level: Known): Quantity {
  const span = subtract(after.level.quantity, before.level.quantity);
  const share = divide(subtract(level, before.level.quantity), span);
  const change = subtract(after.size.quantity, before.size.quantity);
  return add(before.size.quantity, multiply(change, share));
}
