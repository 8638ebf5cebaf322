/** Enclosures are no wider than they need be, say nothing where nothing can be said, and never have a zero with a sign. */
import { describe, expect, test } from "vitest";
import {
  enclosedArcTangent2,
  enclosedPower,
  enclosedProduct,
  enclosedQuotient,
  enclosedRoundUp,
  enclosedSine,
  enclosedSum,
  enclosedTangent,
  pointAt,
  whyWithheld,
} from "../../server/quantity/enclosure.ts";
import { productIsExact } from "../../server/quantity/outward.ts";
import type { Enclosure } from "../../server/quantity/quantity.ts";
import { everything } from "./holds.ts";

const from = (low: number, high: number): Enclosure => ({ low, high });

describe("stays narrow", () => {
  test.each<[string, () => Enclosure, number, number]>([
    ["a quotient by what is below 0", () => enclosedQuotient(pointAt(6), from(-3, -2)), -3, -2],
    ["the angle of points on the left, above", () => enclosedArcTangent2(from(1, 2), from(-2, -1)), 116.565, 153.435],
    [
      "the angle of points on the left, below",
      () => enclosedArcTangent2(from(-2, -1), from(-2, -1)),
      -153.435,
      -116.565,
    ],
    [
      "the angle of points on the left, from the axis up",
      () => enclosedArcTangent2(from(0, 1), from(-2, -1)),
      135,
      180,
    ],
    ["the angle of points from the upright to the right", () => enclosedArcTangent2(from(-1, 1), from(0, 1)), -90, 90],
    ["a sine that only rises", () => enclosedSine(from(10, 11)), 0.17364, 0.19081],
    ["a sine that only falls", () => enclosedSine(from(100, 101)), 0.98162, 0.98481],
    ["a sine past its highest", () => enclosedSine(from(80, 91)), 0.9848, 1],
    ["a sine past its lowest", () => enclosedSine(from(-91, -80)), -1, -0.9848],
    ["a high odd power of what is below 0", () => enclosedPower(from(-1.1, -1.05), 65), -490.371, -23.838],
    ["a high odd power of what is on both sides of 0", () => enclosedPower(from(-1.1, 1.05), 65), -490.371, 490.371],
    ["a high odd power from 0 on", () => enclosedPower(from(0, 1.1), 65), 0, 490.371],
    ["a high even power of what is below 0", () => enclosedPower(from(-1.1, -1.05), 66), 25.03, 539.408],
  ])("%s", (_, enclosed, least, most) => {
    const { low, high } = enclosed();
    expect(Math.abs(low - least)).toBeLessThan(1e-3 * Math.max(1, Math.abs(least)));
    expect(Math.abs(high - most)).toBeLessThan(1e-3 * Math.max(1, Math.abs(most)));
  });

  test("steps that a thousand-millionth decides are both held", () => {
    expect(enclosedRoundUp(pointAt(1.000000001), pointAt(1))).toEqual(from(1, 2));
    expect(enclosedRoundUp(pointAt(1.0000000009), pointAt(1))).toEqual(from(1, 1));
    expect(enclosedRoundUp(pointAt(1.0000000011), pointAt(1))).toEqual(from(2, 2));
  });
});

describe("says nothing", () => {
  test.each<[string, () => Enclosure]>([
    ["of a tangent over more than half a turn, though its ends rise", () => enclosedTangent(from(-200, 200))],
    ["of a tangent over a pole", () => enclosedTangent(from(80, 100))],
    ["of a quotient by what may be 0", () => enclosedQuotient(pointAt(1), from(-1, 1))],
    ["of a quotient by what ends at 0", () => enclosedQuotient(pointAt(1), from(-1, 0))],
    ["of a quotient by what begins at 0", () => enclosedQuotient(from(0, 1), from(0, 1))],
    ["beyond 10³⁰⁰", () => enclosedProduct(pointAt(1e200), pointAt(-1e101))],
  ])("%s", (_, enclosed) => expect(enclosed()).toEqual(everything));
});

test("10³⁰⁰ itself is still told, on either side of 0", () => {
  expect(enclosedSum(pointAt(-1e300), pointAt(0))).toEqual(from(-1e300, -1e300));
  expect(enclosedSum(pointAt(1e300), pointAt(0))).toEqual(from(1e300, 1e300));
});

test("a zero has no sign", () => {
  expect(enclosedQuotient(pointAt(0), pointAt(-1))).toEqual(from(0, 0));
  expect(enclosedProduct(from(-1, 0), pointAt(0))).toEqual(from(0, 0));
});

test("a width of exactly a thousand-millionth may be shown", () => {
  expect(whyWithheld(0, from(0, 1e-9))).toBeUndefined();
  expect(whyWithheld(0, from(0, 1.0000000001e-9))).toContain("rounding alone could change it");
});

test("a product of all its 53 bits is exact", () => {
  expect(productIsExact(2 ** 26 + 1, 2 ** 26 + 1, (2 ** 26 + 1) ** 2)).toBe(true);
  expect(productIsExact(2 ** 27 + 1, 2 ** 27 + 3, (2 ** 27 + 1) * (2 ** 27 + 3))).toBe(false);
});
