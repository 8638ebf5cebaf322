/**
 * Looking up a size in a catalogue's list: whether it is listed and which listed sizes lie nearest. Lists are read small to large;
 * sizes that are unknown or of another kind are passed over.
 */
import type { SizeList } from "../meaning/plan.ts";
import { compare, subtract } from "../quantity/arithmetic.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { dimensionOf, sameDimension } from "../quantity/units.ts";

/** The known lengths of the lists, small to large, each once. */
export function lengthsOf(...lists: readonly (SizeList | undefined)[]): readonly Known[] {
  const all = lists.flatMap((list) => list?.sizes.map((size) => size.quantity) ?? []).filter(isLength);
  return all.toSorted(compare).filter((size, at, sorted) => !isSame(size, sorted[at - 1]));
}

export function isListed(sizes: readonly Known[], size: Known): boolean {
  return sizes.some((each) => compare(each, size) === 0);
}

/** None when the bound is unknown. */
export function largestAtMost(sizes: readonly Known[], most: Quantity): Known | undefined {
  if (most.kind === "unknown") return undefined;
  return sizes.findLast((size) => compare(size, most) <= 0);
}

/** None when the bound is unknown. */
export function smallestAtLeast(sizes: readonly Known[], least: Quantity): Known | undefined {
  if (least.kind === "unknown") return undefined;
  return sizes.find((size) => compare(size, least) >= 0);
}

/** Each member of a list with the one before it, in their order. */
export function pairsOf<Member>(list: readonly Member[]): readonly (readonly [before: Member, after: Member])[] {
  return list.flatMap((before, at) => list.slice(at + 1, at + 2).map((after) => [before, after] as const));
}

/** The next listed size on either side; one of them alone at the ends of the list. */
export function neighbours(sizes: readonly Known[], size: Known): readonly Known[] {
  const below = sizes.findLast((each) => compare(each, size) < 0);
  const above = sizes.find((each) => compare(each, size) > 0);
  return [below, above].filter((each) => each !== undefined);
}

/** The listed size that differs least; the smaller one when two do. */
export function nearestListed(sizes: readonly Known[], size: Known): Known | undefined {
  const [first, second] = neighbours(sizes, size);
  if (first === undefined || second === undefined) return first;
  const down = subtract(size, first);
  const up = subtract(second, size);
  return down.kind === "known" && up.kind === "known" && compare(up, down) < 0 ? second : first;
}

export function isLength(quantity: Quantity | undefined): quantity is Known {
  return quantity?.kind === "known" && sameDimension(quantity.dimension, dimensionOf("length"));
}

function isSame(size: Known, other: Known | undefined): boolean {
  return other !== undefined && compare(size, other) === 0;
}
