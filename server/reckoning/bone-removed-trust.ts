/**
 * Whether the first-order ± of the bone removed holds. No less than nothing is removed, so near 0 the volume bends, and a straight line
 * through it says too much below and too little above. Held against the volume itself with each reading moved by its ±.
 */
import { halfWidthIn, valueIn } from "../quantity/arithmetic.ts";
import { decimalsFor } from "../quantity/decimal.ts";
import { printNumber } from "../quantity/print.ts";
import type { Known, Reading } from "../quantity/quantity.ts";
import type { Node } from "./profile.ts";
import { type Axis, reamedVolume, type Station } from "./reamed-volume.ts";

/** What the volume is reckoned from; sizes and levels from the driving end to the tip. */
export interface Reamed {
  readonly head: Known;
  readonly tip: Known;
  readonly width: readonly [Node, ...Node[]];
  readonly depth: readonly [Node, ...Node[]];
}

/** Half-widths (k = 2) below and above the volume, in mm³, each from moving one reading after the other by its ±. */
export interface Reach {
  readonly volume: number;
  readonly below: number;
  readonly above: number;
}

/** Less than this, in mm³, nobody would miss: it is not printed in ml either. */
const nothing = 1;

/** A remark where the linear ± of `answer` is not to be trusted; undefined where it is. */
export function distrust(reamed: Reamed, answer: Known): string | undefined {
  const reach = reachOf(reamed);
  if (isTrusted(reach, halfWidthIn(answer, "mm³"))) {
    return undefined;
  }
  const [low, high] = [Math.max(0, reach.volume - reach.below), reach.volume + reach.above];
  return (
    "so near 0 the ± is not to be trusted, being linear where the volume bends: each reading moved by its ± gives " +
    `${inMillilitres(low)} to ${inMillilitres(high)}`
  );
}

/**
 * Both half-widths agree with the linear one to within half a unit in the first significant digit of the standard uncertainty
 * (JCGM 101:2008, 8), or within a tenth where that digit is so high that half a unit of it is less.
 */
export function isTrusted({ below, above }: Reach, linear: number): boolean {
  const digit = linear === 0 ? 0 : 10 ** -decimalsFor(linear / 2, 1) / 2;
  const allowed = Math.max(nothing, digit, linear / 10);
  return Math.abs(below - linear) <= allowed && Math.abs(above - linear) <= allowed;
}

function reachOf(reamed: Reamed): Reach {
  const volume = volumeWith(reamed, undefined, 0);
  let [below, above] = [0, 0];
  for (const reading of readingsOf(reamed)) {
    const moved = [volumeWith(reamed, reading, 2) - volume, volumeWith(reamed, reading, -2) - volume];
    below += Math.max(0, ...moved.map((by) => -by)) ** 2;
    above += Math.max(0, ...moved) ** 2;
  }
  return { volume, below: Math.sqrt(below), above: Math.sqrt(above) };
}

function readingsOf({ head, tip, width, depth }: Reamed): readonly Reading[] {
  const lengths = [head, tip, ...[...width, ...depth].flatMap(({ level, size }) => [level.quantity, size.quantity])];
  const all = lengths.flatMap(({ influences }) => influences.map(({ reading }) => reading));
  return [...new Map(all.map((reading) => [reading.id, reading])).values()];
}

/** The volume with one reading moved by so many of its standard uncertainties. */
function volumeWith({ head, tip, width, depth }: Reamed, reading: Reading | undefined, by: number): number {
  const lengthOf = (length: Known): number => valueIn(length, "mm") + shift(length, reading, by);
  const axisOf = ([first, ...rest]: readonly [Node, ...Node[]]): Axis<Node> => {
    const station = (node: Node): Station<Node> => ({
      of: node,
      level: lengthOf(node.level.quantity),
      size: Math.max(narrowest, lengthOf(node.size.quantity)),
    });
    return [station(first), ...rest.map(station)];
  };
  return reamedVolume(lengthOf(head), axisOf(width), axisOf(depth), lengthOf(tip)).volume;
}

/** No canal is moved shut. */
const narrowest = 0.01;

/** In mm, the base unit of lengths. */
function shift(length: Known, reading: Reading | undefined, by: number): number {
  const own = length.influences.find((influence) => influence.reading.id === reading?.id);
  return own === undefined ? 0 : own.sensitivity * by * own.reading.standardUncertainty;
}

function inMillilitres(volume: number): string {
  return `${printNumber(volume / 1000, 3)} ml`;
}
