/**
 * Every operation on enclosures, wide ones and points: whatever numbers lie within the operands, the exact result of them lies within
 * the result. Exact are whole-number rationals, squares of roots, and trigonometry of 70 digits.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  enclosedArcTangent2,
  enclosedCosine,
  enclosedDifference,
  enclosedGreater,
  enclosedHypotenuse,
  enclosedLesser,
  enclosedMagnitude,
  enclosedPower,
  enclosedProduct,
  enclosedQuotient,
  enclosedRoundDown,
  enclosedRoundUp,
  enclosedSine,
  enclosedSum,
  enclosedTangent,
  pointAt,
} from "../../server/quantity/enclosure.ts";
import { runs } from "../runs.ts";
import { exactCosine, exactSine } from "./fixed-point.ts";
import { everything, holds } from "./holds.ts";
import { fromDouble, magnitude, minus, order, over, plus, type Rational, rational, times } from "./rational.ts";

describe("any number within the operands gives one within the result", () => {
  const numRuns = runs(4000);
  const end = fc.oneof(
    fc.integer({ min: -64, max: 64 }).map((count) => count / 4),
    fc.double({ noNaN: true, min: -400, max: 400 }),
  );
  /** An enclosure, wide or a point, and a double in it. */
  const within = fc.oneof(
    fc.tuple(end, end, fc.double({ noNaN: true, min: 0, max: 1 })).map(([one, other, part]) => {
      const [low, high] = [Math.min(one, other), Math.max(one, other)];
      return { low, high, at: Math.min(high, Math.max(low, low + (high - low) * part)) };
    }),
    end.map((at) => ({ low: at, high: at, at })),
  );
  /** An angle known to some degrees, so that it often holds a turning point. */
  const turned = fc
    .tuple(
      fc.integer({ min: -800, max: 800 }),
      fc.double({ noNaN: true, min: 0, max: 170 }),
      fc.double({ noNaN: true, min: 0, max: 1 }),
    )
    .map(([low, width, part]) => ({ low, high: low + width, at: Math.min(low + width, low + width * part) }));

  test.each([
    ["sum", enclosedSum, plus],
    ["difference", enclosedDifference, minus],
    ["product", enclosedProduct, times],
    ["quotient", enclosedQuotient, over],
    ["lesser", enclosedLesser, (a: Rational, b: Rational) => (order(a, b) < 0 ? a : b)],
    ["greater", enclosedGreater, (a: Rational, b: Rational) => (order(a, b) > 0 ? a : b)],
  ] as const)("%s", (name, enclosed, exactly) => {
    let said = 0;
    fc.assert(
      fc.property(within, within, (a, b) => {
        fc.pre(name !== "quotient" || b.at !== 0);
        const result = enclosed(a, b);
        expect(holds(result, exactly(fromDouble(a.at), fromDouble(b.at)))).toBe(true);
        if (Number.isFinite(result.low)) said++;
      }),
      { numRuns },
    );
    expect(said).toBeGreaterThan(numRuns / 3);
  });

  test.each([2, 3, 4, 7, -1, -2, -3, 64, 65, 66, -65, 0, 1])("power %d", (n) => {
    fc.assert(
      fc.property(within, (a) => {
        fc.pre(n >= 0 || a.at !== 0);
        const at = fromDouble(a.at);
        const raised = Array.from({ length: Math.abs(n) }, () => at).reduce(times, rational(1n));
        expect(holds(enclosedPower(a, n), n < 0 ? over(rational(1n), raised) : raised)).toBe(true);
      }),
      { numRuns: numRuns / 4 },
    );
  });

  test.each([0.5, -0.5, 1.5, -1.5])("power %d, by its square", (n) => {
    fc.assert(
      fc.property(within, (a) => {
        fc.pre(n > 0 ? a.at >= 0 : a.at > 0);
        const { low, high } = enclosedPower(a, n);
        const at = fromDouble(a.at);
        const product = Array.from({ length: Math.abs(n) * 2 }, () => at).reduce(times, rational(1n));
        const square = n < 0 ? over(rational(1n), product) : product;
        expect(low === everything.low || order(squareOf(Math.max(0, low)), square) <= 0).toBe(true);
        expect(high === everything.high || order(square, squareOf(high)) <= 0).toBe(true);
      }),
      { numRuns },
    );
  });

  test("magnitude", () => {
    fc.assert(
      fc.property(within, (a) => {
        const result = enclosedMagnitude(a);
        expect(holds(result, magnitude(fromDouble(a.at)))).toBe(true);
        expect(result.high + 0).toBe(Math.max(Math.abs(a.low), Math.abs(a.high)) + 0);
      }),
      { numRuns },
    );
  });

  test("hypotenuse, by its square", () => {
    fc.assert(
      fc.property(within, within, (a, b) => {
        const { low, high } = enclosedHypotenuse(a, b);
        const square = plus(squareOf(a.at), squareOf(b.at));
        expect(low).toBeGreaterThanOrEqual(0);
        expect(order(squareOf(low), square)).toBeLessThanOrEqual(0);
        expect(order(square, squareOf(high))).toBeLessThanOrEqual(0);
      }),
      { numRuns },
    );
  });

  test.each([
    ["sine", enclosedSine, exactSine],
    ["cosine", enclosedCosine, exactCosine],
    ["tangent", enclosedTangent, (degrees: Rational) => over(exactSine(degrees), exactCosine(degrees))],
  ] as const)("%s", (name, enclosed, exactly) => {
    let said = 0;
    fc.assert(
      fc.property(turned, (angle) => {
        fc.pre(name !== "tangent" || angle.at % 90 !== 0);
        const result = enclosed(angle);
        expect(holds(result, exactly(fromDouble(angle.at)))).toBe(true);
        if (result.high - result.low < 1.5) said++;
      }),
      { numRuns: numRuns / 2 },
    );
    expect(said).toBeGreaterThan(numRuns / 10);
  });

  test("a wave over half a turn or more is anything, a tangent over a pole too", () => {
    expect(enclosedSine({ low: 0, high: 180 })).toEqual({ low: -1, high: 1 });
    expect(enclosedCosine(everything)).toEqual({ low: -1, high: 1 });
    expect(enclosedTangent({ low: 0, high: 180 })).toEqual(everything);
    expect(enclosedTangent({ low: 89, high: 91 })).toEqual(everything);
    expect(enclosedTangent({ low: 80, high: 90 })).toEqual(everything);
    expect(enclosedTangent(everything)).toEqual(everything);
    expect(enclosedSine({ low: 80, high: 100 })).toMatchObject({ high: 1 });
    expect(enclosedSine({ low: -100, high: -80 })).toMatchObject({ low: -1 });
    expect(enclosedSine({ low: 80, high: 100 }).low).toBeCloseTo(Math.sin((80 * Math.PI) / 180), 12);
    expect(enclosedSine({ low: -100, high: -80 }).high).toBeCloseTo(-Math.sin((80 * Math.PI) / 180), 12);
    expect(enclosedSine(pointAt(90)).low).toBeGreaterThan(1 - 1e-12);
    expect(enclosedCosine(pointAt(180)).high).toBeLessThan(-1 + 1e-12);
  });

  test("direction of a point", () => {
    let said = 0;
    fc.assert(
      fc.property(within, within, (y, x) => {
        fc.pre(x.at !== 0 || y.at !== 0);
        const { low, high } = enclosedArcTangent2(y, x);
        if (high - low >= 180) return;
        said++;
        // Turned back by either end, the point lies on the side it should.
        const beside = (degrees: number): Rational => {
          const at = fromDouble(degrees);
          return minus(times(fromDouble(y.at), exactCosine(at)), times(fromDouble(x.at), exactSine(at)));
        };
        const nothing = rational(1n, 1n << 200n);
        expect(order(beside(low), rational(-1n, 1n << 200n))).toBeGreaterThanOrEqual(0);
        expect(order(beside(high), nothing)).toBeLessThanOrEqual(0);
      }),
      { numRuns },
    );
    expect(said).toBeGreaterThan(numRuns / 3);
    expect(enclosedArcTangent2({ low: -1, high: 1 }, { low: -1, high: 1 })).toEqual({ low: -180, high: 180 });
    expect(enclosedArcTangent2({ low: -1, high: 0 }, { low: -1, high: 1 })).toEqual({ low: -180, high: 180 });
    expect(enclosedArcTangent2(pointAt(0), pointAt(0))).toEqual(everything);
    expect(enclosedArcTangent2({ low: 0, high: 1 }, pointAt(-1)).high).toBeCloseTo(180, 11);
    expect(enclosedArcTangent2({ low: -1, high: -0.5 }, pointAt(-1)).low).toBeLessThan(-152);
  });

  test.each([
    ["up", enclosedRoundUp, (whole: bigint, rest: bigint) => (rest === 0n ? whole : whole + 1n)],
    ["down", enclosedRoundDown, (whole: bigint) => whole],
  ] as const)("whole steps, rounded %s", (_, enclosed, towards) => {
    const step = fc.integer({ min: 1, max: 40 }).map((count) => count / 4);
    fc.assert(
      fc.property(within, step, (a, by) => {
        const steps = over(fromDouble(a.at), fromDouble(by));
        const remainder = ((steps.over % steps.under) + steps.under) % steps.under;
        // Next to a multiple the tool takes that multiple.
        const near = [remainder, steps.under - remainder].some((off) => off !== 0n && off * 100_000_000n < steps.under);
        fc.pre(!near);
        const whole = towards((steps.over - remainder) / steps.under, remainder);
        expect(holds(enclosed(a, pointAt(by)), times(rational(whole), fromDouble(by)))).toBe(true);
      }),
      { numRuns },
    );
    expect(enclosed(pointAt(1), { low: -1, high: 1 })).toEqual(everything);
  });

  test("beyond what doubles can say nothing is said", () => {
    expect(enclosedProduct(pointAt(1e200), pointAt(1e200))).toEqual(everything);
    expect(enclosedProduct(everything, pointAt(0))).toEqual(everything);
    expect(enclosedSum(everything, everything)).toEqual(everything);
    expect(enclosedMagnitude(everything)).toEqual(everything);
    expect(enclosedLesser(everything, pointAt(1))).toEqual(everything);
    expect(enclosedGreater(pointAt(1), everything)).toEqual(everything);
    expect(enclosedSum(pointAt(1), everything)).toEqual(everything);
    expect(enclosedQuotient(everything, pointAt(2))).toEqual(everything);
    expect(enclosedQuotient(pointAt(2), everything)).toEqual(everything);
    expect(enclosedPower({ low: 0, high: 1 }, -0.25)).toEqual(everything);
    expect(enclosedPower({ low: -2, high: -1 }, 0.5)).toEqual(everything);
    expect(enclosedHypotenuse(everything, pointAt(1)).high).toBe(everything.high);
    expect(enclosedProduct(pointAt(1e150), pointAt(1e150)).high).toBeLessThan(1.0000000001e300);
  });

  function squareOf(x: number): Rational {
    return times(fromDouble(x), fromDouble(x));
  }
});
