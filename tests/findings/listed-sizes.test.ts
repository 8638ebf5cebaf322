/** Looking up sizes in a catalogue's list. */
import { describe, expect, test } from "vitest";
import {
  isListed,
  largestAtMost,
  lengthsOf,
  nearestListed,
  neighbours,
  pairsOf,
  smallestAtLeast,
} from "../../server/findings/listed-sizes.ts";
import type { SizeList } from "../../server/meaning/plan.ts";
import { constant, unknown, valueIn } from "../../server/quantity/arithmetic.ts";
import type { Known, Quantity } from "../../server/quantity/quantity.ts";

const place = { file: "a", span: { start: 0, end: 0 } };
const mm = (value: number): Known => constant(value, "mm");
const list = (...sizes: readonly Quantity[]): SizeList => ({
  sizes: sizes.map((quantity) => ({ quantity, place })),
  place,
});
const numbers = (sizes: readonly (Known | undefined)[]): readonly (number | undefined)[] =>
  sizes.map((size) => size && valueIn(size, "mm"));

const sizes = lengthsOf(
  list(mm(10), mm(8)),
  undefined,
  list(mm(9), mm(8), unknown("none"), constant(5, "deg"), constant(1.2, "cm")),
);

test("pairs each member with the one before it", () => {
  expect(pairsOf([])).toEqual([]);
  expect(pairsOf(["a"])).toEqual([]);
  expect(pairsOf(["a", "b", "c"])).toEqual([
    ["a", "b"],
    ["b", "c"],
  ]);
});

describe("a list of sizes", () => {
  test("is read small to large, each once, without what is no length", () => {
    expect(numbers(sizes)).toEqual([8, 9, 10, 12]);
  });

  test("tells what is listed, to the rounding of doubles", () => {
    expect(isListed(sizes, mm(9))).toBe(true);
    expect(isListed(sizes, mm(0.3 * 30))).toBe(true);
    expect(isListed(sizes, mm(9.01))).toBe(false);
  });

  test("tells the sizes about one", () => {
    expect(numbers([largestAtMost(sizes, mm(11)), largestAtMost(sizes, mm(10)), largestAtMost(sizes, mm(7))])).toEqual([
      10,
      10,
      undefined,
    ]);
    expect(
      numbers([smallestAtLeast(sizes, mm(11)), smallestAtLeast(sizes, mm(12)), smallestAtLeast(sizes, mm(13))]),
    ).toEqual([12, 12, undefined]);
    expect(numbers(neighbours(sizes, mm(10)))).toEqual([9, 12]);
    expect(numbers(neighbours(sizes, mm(7)))).toEqual([8]);
    expect(numbers(neighbours(sizes, mm(20)))).toEqual([12]);
  });

  test("tells none at a bound that is unknown", () => {
    expect(largestAtMost(sizes, unknown("not measured"))).toBeUndefined();
    expect(smallestAtLeast(sizes, unknown("not measured"))).toBeUndefined();
  });

  test("tells the nearest, the smaller of two as near", () => {
    expect(numbers([8.4, 8.5, 8.6, 7, 20].map((size) => nearestListed(sizes, mm(size))))).toEqual([8, 8, 9, 8, 12]);
    expect(nearestListed([], mm(9))).toBeUndefined();
  });
});
