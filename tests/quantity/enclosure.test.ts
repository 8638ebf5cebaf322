/**
 * Enclosures hold what they promise: the exact result, in rationals of whole numbers, and the value itself; and the question whether
 * a value is to be shown is answered by them and by nothing else. Plans are tried in tests/reckoning/withheld.test.ts.
 */
import { describe, expect, test } from "vitest";
import { absolute, constant, exact, plain, scale, subtract, unknown } from "../../server/quantity/arithmetic.ts";
import {
  arcTangent2,
  cosine,
  hypotenuse,
  maximum,
  mean,
  minimum,
  power,
  roundDown,
  roundUp,
  sine,
  squareRoot,
  tangent,
} from "../../server/quantity/elementary.ts";
import {
  enclosedBy,
  enclosedDifference,
  enclosedSum,
  enclosureOf,
  pointAt,
  trusted,
  whyWithheld,
} from "../../server/quantity/enclosure.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { everything } from "./holds.ts";
import { because, sure } from "./sure.ts";

const disagree = "two ways of computing it disagree";
const cancels = "nearly equal numbers cancel in it, and rounding alone could change it";

describe("whether a value is to be shown", () => {
  test.each([
    ["inside a narrow one", 345, 344.9999999999, 345.0000000001, undefined],
    ["at its lower end", 345, 345, 345.0000000001, undefined],
    ["at its upper end", 345, 344.9999999999, 345, undefined],
    ["a point", 345, 345, 345, undefined],
    ["just below", 344.99999999999994, 345, 345, disagree],
    ["just above", 345.00000000000006, 345, 345, disagree],
    ["far off", 354, 345, 345, disagree],
    ["no number", Number.NaN, 345, 345, disagree],
    ["no enclosure to speak of", 345, Number.NaN, Number.NaN, disagree],
    ["a width of a thousand-millionth of the value", 1000, 999.9999995, 1000.0000004, undefined],
    ["a larger part of the value", 1000, 999.9999994, 1000.0000005, cancels],
    ["of a value below 0", -1000, -1000.0000005, -999.9999994, cancels],
    ["a width of a thousand-millionth of a base unit", 0.001, 0.0009999996, 0.0010000005, undefined],
    ["a larger part of a base unit", 0.001, 0.0009999994, 0.0010000005, cancels],
    ["nothing is known", 345, everything.low, everything.high, cancels],
  ])("%s", (_, value, low, high, expected) => {
    expect(whyWithheld(value, { low, high })).toBe(expected);
  });

  test("a wrong value is withheld, the right one is shown as it is, and Unknown keeps its reason", () => {
    const right = sure(exact(345, "mm"));
    expect(trusted(right)).toBe(right);
    expect(because(trusted({ ...right, enclosure: pointAt(344) }))).toBe(disagree);
    const third = sure(exact(1, "mm", "1"));
    expect(trusted(enclosedBy(third, { low: 0.9999999999, high: 1.0000000001 }))).toMatchObject({ value: 1 });
    expect(because(trusted(unknown("no landmark scar is given")))).toBe("no landmark scar is given");
  });

  test("the difference of nearly equal numbers is shown, what is divided by it is not", () => {
    const third = scale(constant(1, "mm"), 1 / 3);
    const almost = scale(constant(1 + 1e-9, "mm"), 1 / 3);
    const difference = subtract(almost, third);
    expect(trusted(difference)).toBe(difference);
    expect(because(trusted(power(difference, -1)))).toBe(cancels);
    const apart = subtract(scale(constant(1.1, "mm"), 1 / 3), third);
    expect(trusted(power(apart, -1)).kind).toBe("known");
  });

  test("an angle on the border between 180 deg and -180 deg is not shown", () => {
    const noise = enclosedBy(constant(1e-17, "mm"), { low: -1e-17, high: 2e-17 });
    expect(because(trusted(arcTangent2(noise, constant(-1, "mm"))))).toBe(cancels);
    expect(trusted(arcTangent2(noise, constant(1, "mm"))).kind).toBe("known");
  });
});

describe("making", () => {
  test("what is not rounded stays a point, which the value says itself", () => {
    const exactly: readonly Quantity[] = [
      exact(345, "mm"),
      exact(2, "m"),
      exact(0.37, "1"),
      scale(constant(2.5, "mm"), 4),
      scale(constant(-2.5, "mm"), -0.5),
      subtract(constant(361.75, "mm"), constant(8.5, "mm")),
      power(constant(1.5, "mm"), 3),
      power(constant(2, "mm"), -2),
      squareRoot(plain(6.25)),
      mean([constant(1, "mm"), constant(2, "mm")]),
      absolute(constant(-3, "mm")),
      minimum([constant(3, "mm"), constant(2, "mm")]),
      maximum([constant(3, "mm"), constant(2, "mm")]),
      roundUp(constant(3.2, "mm"), constant(0.5, "mm")),
      roundDown(constant(3.2, "mm"), constant(0.5, "mm")),
    ];
    expect(exactly.map((q) => sure(q).enclosure)).toEqual(exactly.map(() => undefined));
  });

  test("what is rounded has an enclosure of a few units in the last place", () => {
    const rounded: readonly Quantity[] = [
      exact(37.1, "%"),
      exact(10.1, "mmHg"),
      exact(1, "rad"),
      scale(constant(1, "mm"), 0.1 + 0.2),
      scale(constant(0.1, "mm"), 0.1),
      subtract(constant(0.1, "mm"), constant(0.2, "m")),
      power(constant(0.1, "mm"), 3),
      power(plain(1.1), 0.1),
      power(plain(1.1), 65),
      squareRoot(plain(2)),
      hypotenuse(constant(3, "mm"), constant(4, "mm")),
      sine(constant(20, "deg")),
      cosine(constant(20, "deg")),
      tangent(constant(20, "deg")),
      arcTangent2(constant(2, "mm"), constant(3, "mm")),
      mean([constant(0.1, "mm"), constant(0.2, "mm"), constant(0.4, "mm")]),
    ];
    for (const q of rounded) {
      const { value, enclosure } = sure(q);
      if (value === 0.30000000000000004) continue;
      if (enclosure === undefined) throw new Error(`${value} has no enclosure`);
      expect(enclosure.low).toBeLessThan(value);
      expect(enclosure.high).toBeGreaterThan(value);
      expect(enclosure.high - enclosure.low).toBeLessThan(Math.abs(value) * 80 * 2 ** -52);
    }
  });

  test("an enclosure from elsewhere replaces its own, and the same one changes nothing", () => {
    const q = constant(2, "mm");
    expect(enclosedBy(q, pointAt(2))).toBe(q);
    expect(enclosedBy(q, { low: 1, high: 2 })).toEqual({ ...q, enclosure: { low: 1, high: 2 } });
    expect(enclosedBy(q, { low: 2, high: 3 })).toEqual({ ...q, enclosure: { low: 2, high: 3 } });
    expect(enclosureOf(enclosedBy(q, { low: 1, high: 3 }))).toEqual({ low: 1, high: 3 });
    expect(enclosureOf(q)).toEqual({ low: 2, high: 2 });
  });

  test("a sum that is noise holds 0 and what the doubles say", () => {
    const noisy = enclosedSum(pointAt(1), pointAt(-(1 - 2 ** -53)));
    expect(noisy).toEqual({ low: 0, high: 2 ** -53 });
    expect(enclosedSum(pointAt(-1), pointAt(1 - 2 ** -53))).toEqual({ low: -(2 ** -53), high: 0 });
    // Half of the limit on one side of it, twice on the other.
    expect(enclosedSum(pointAt(1), pointAt(-(1 - 2 ** -48))).low).toBe(0);
    expect(enclosedSum(pointAt(1), pointAt(-(1 - 2 ** -46))).low).toBe(2 ** -46);
    expect(enclosedDifference(pointAt(1 - 2 ** -46), pointAt(1)).high).toBe(-(2 ** -46));
  });

  test("the choice among values that rounding leaves open holds them all", () => {
    const [one, other] = [
      enclosedBy(constant(2, "mm"), { low: 1, high: 3 }),
      enclosedBy(constant(2.5, "mm"), { low: 0, high: 5 }),
    ];
    expect(minimum([one, other])).toEqual({ ...one, enclosure: { low: 0, high: 3 } });
    expect(maximum([one, other])).toEqual({ ...other, enclosure: { low: 1, high: 5 } });
    expect(minimum([one])).toBe(one);
  });

  test("the magnitude of a value that rounding may turn", () => {
    const near = enclosedBy(constant(1, "mm"), { low: -3, high: 2 });
    expect(absolute(near)).toEqual({ ...near, enclosure: { low: 0, high: 3 } });
    expect(sure(absolute(enclosedBy(constant(-1, "mm"), { low: -3, high: -1 })))).toMatchObject({
      value: 1,
      enclosure: { low: 1, high: 3 },
    });
    expect(absolute(enclosedBy(constant(-1, "mm"), { low: -1, high: 0 }))).toMatchObject({
      enclosure: { low: 0, high: 1 },
    });
  });

  test("whole steps hang on a value that rounding leaves on the edge of one", () => {
    const step = constant(1, "mm");
    const edge = enclosedBy(constant(3.000000001, "mm"), { low: 3, high: 3.1 });
    expect(roundUp(edge, step)).toMatchObject({ value: 3, enclosure: { low: 3, high: 4 } });
    expect(roundDown(enclosedBy(constant(3, "mm"), { low: 2.9, high: 3 }), step)).toMatchObject({
      value: 3,
      enclosure: { low: 2, high: 3 },
    });
    expect(sure(roundUp(constant(3.0000000005, "mm"), step))).toMatchObject({ value: 3 });
    expect(trusted(roundUp(constant(3.0000000005, "mm"), step)).kind).toBe("known");
    expect(trusted(roundUp(constant(3.00000001, "mm"), step))).toMatchObject({ value: 4 });
    expect(trusted(roundDown(constant(2.9999999995, "mm"), step))).toMatchObject({ value: 3 });
    expect(trusted(roundUp(constant(7e9 + 0.25, "mm"), step))).toMatchObject({ value: 7e9 });
  });
});
