/**
 * Levels, curves and chords in plain numbers, which the second computations share with each other and with nothing else.
 */
import type { HoleNumbers, Numbers, SizeNumbers } from "./worked-numbers.ts";

export type Answers = Map<string, number | string | null>;

/** What several of the answers stand on. `level` is in mm from the entry point. */
export interface Ground {
  readonly ap: number;
  readonly lateral: number;
  readonly edges: { readonly from: number; readonly to: number } | undefined;
  readonly isthmus: { readonly size: number; readonly level: number } | undefined;
  readonly plafond: number | undefined;
  readonly scar: number | undefined;
  readonly knee: number;
}

export function holeLevel(n: Numbers, { end, distance }: HoleNumbers): number {
  return end === "top" ? n.sunk.value + distance : n.sunk.value + n.length - distance;
}

/** Twice the polar radius of the ellipse. */
export function chord(hole: HoleNumbers, width: number | undefined, depth: number | undefined): number | null {
  const along = Math.cos(((hole.tilt ?? 0) * Math.PI) / 180);
  if (hole.runs === "medial-lateral") return width === undefined ? null : width / along;
  if (hole.runs === "anterior-posterior") return depth === undefined ? null : depth / along;
  if (width === undefined || depth === undefined) return null;
  const angle = ((hole.angle ?? 0) * Math.PI) / 180;
  return (width * depth) / Math.sqrt((depth * Math.cos(angle)) ** 2 + (width * Math.sin(angle)) ** 2) / along;
}

type Curve = (level: number) => number | undefined;

/** Weighted mean of the two neighbours; the nearest one outside. */
export function curve(list: readonly SizeNumbers[], side: "width" | "depth", scale: number): Curve {
  const given = list
    .flatMap((each) => (each[side] === undefined ? [] : [{ x: each.level.value, y: each[side].value / scale }]))
    .sort((a, b) => a.x - b.x);
  return (at) => {
    const right = given.findIndex(({ x }) => x >= at);
    const [before, after] = [given[right - 1], given[right]];
    if (right === -1) return given.at(-1)?.y;
    if (before === undefined || after === undefined) return after?.y;
    return (before.y * (after.x - at) + after.y * (at - before.x)) / (after.x - before.x);
  };
}

export function sizeAt(
  list: readonly SizeNumbers[],
  side: "width" | "depth",
  at: number,
  scale: number,
): number | undefined {
  return curve(list, side, scale)(at);
}
