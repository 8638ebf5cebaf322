/** Laws and corners of making quantities and of the four operations. Their values are held against rationals in `two-paths`. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  absolute,
  add,
  compare,
  constant,
  correlation,
  covariance,
  divide,
  exact,
  halfWidthIn,
  isExact,
  known,
  measured,
  multiply,
  negate,
  ofDimension,
  plain,
  requireSame,
  scale,
  shares,
  standardUncertainty,
  subtract,
  unknown,
  valueIn,
} from "../../server/quantity/arithmetic.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { dimensionOf, units } from "../../server/quantity/units.ts";
import { runs } from "../runs.ts";
import { because, numberIn, reading, sure } from "./sure.ts";

const value = fc.integer({ min: -500_000, max: 500_000 }).map((whole) => whole / 100);
const halfWidth = fc.integer({ min: 0, max: 500 }).map((whole) => whole / 100);
const someReading = fc
  .tuple(fc.constantFrom("a", "b", "c", "d"), value, halfWidth)
  .map(([id, number, width]) => reading(`${id}${width}`, number, width));

describe("making", () => {
  test("exact keeps digits typed as a plain decimal of that value", () => {
    const typed = (number: number, text: string) => sure(exact(number, "mm", text)).typed?.text;
    expect(typed(12.5, "12.50")).toBe("12.50");
    expect(typed(-3, "-3.0")).toBe("-3.0");
    expect(typed(-0, "-0.0")).toBe("0.0");
    expect(typed(0.001, "1e-3")).toBeUndefined();
    expect(typed(5, "7")).toBeUndefined();
    expect(typed(5, "5.")).toBeUndefined();
  });

  test("a reading carries half of its ± in base units and the unit it was typed in", () => {
    const made = sure(measured(2, 0.5, "cm", { id: "7", label: "gap" }));
    expect(made.value).toBe(20);
    expect(made.influences).toEqual([
      { reading: { id: "7", label: "gap", standardUncertainty: 2.5, unit: "cm" }, sensitivity: 1 },
    ]);
  });

  test("a ± of 0, also one too small for a double, is exact", () => {
    expect(isExact(sure(reading("a", 3, 0)))).toBe(true);
    expect(isExact(sure(reading("a", 3, Number.MIN_VALUE)))).toBe(true);
  });

  test("what cannot be made is unknown with its reason", () => {
    expect(because(exact(1, "inch"))).toBe("there is no unit inch");
    expect(because(reading("a", 1, 1, "inch"))).toBe("there is no unit inch");
    expect(because(reading("a", 1, -0.1))).toBe("a ± cannot be below zero");
    for (const odd of [Number.NaN, Number.POSITIVE_INFINITY, 1e151, -1e151]) {
      expect(because(exact(odd, "mm"))).toBe("the number is too large to reckon with");
      expect(because(plain(odd))).toBe("the number is too large to reckon with");
    }
    expect(because(reading("a", 1, Number.NaN))).toBe("the number is too large to reckon with");
    expect(because(exact(1e150, "m"))).toBe("the number is too large to reckon with");
    const digits = `1${"0".repeat(151)}`;
    expect(exact(1e151, "mm", digits)).toEqual(unknown("the number is too large to reckon with"));
    expect(because(exact(Number.POSITIVE_INFINITY, "mm", "1e400"))).toBe("the number is too large to reckon with");
  });

  test("a constant of the program is known or throws", () => {
    expect(constant(40, "mm").value).toBe(40);
    expect(() => constant(40, "inch")).toThrow(RangeError);
  });

  test("-0 never arises", () => {
    const zeros = [exact(-0, "mm"), negate(exact(0, "mm")), scale(exact(0, "mm"), -3), multiply(plain(0), plain(-1))];
    for (const zero of zeros) expect(sure(zero).value).toBe(0);
  });
});

describe("unknown", () => {
  const first = unknown("first");
  const second = unknown("second");
  const one = exact(1, "mm");

  test("goes on with the first cause, without an exception", () => {
    for (const operation of [add, subtract, multiply, divide]) {
      expect(operation(first, second)).toBe(first);
      expect(operation(one, second)).toBe(second);
      expect(operation(first, one)).toBe(first);
    }
    expect([negate(first), absolute(first), scale(first, 2), ofDimension(first, "angle")]).toEqual([
      first,
      first,
      first,
      first,
    ]);
  });

  test("adding mm to deg names both", () => {
    expect(because(add(exact(3, "mm"), exact(2, "deg")))).toBe("mm and deg cannot be added: length and angle");
    expect(because(subtract(exact(3, "rad", "3"), exact(2, "mm")))).toBe(
      "rad and mm cannot be subtracted: angle and length",
    );
    expect(because(add(exact(3, "mm"), plain(2)))).toBe("mm and a plain number cannot be added: length and share");
    const fourth = multiply(exact(1, "mm²"), exact(1, "mm²"));
    expect(because(add(fourth, exact(1, "mm")))).toBe(
      "length to the power 4 and mm cannot be added: length to the power 4 and length",
    );
  });

  test("division by zero, and what grows out of range", () => {
    expect(because(divide(one, exact(0, "mm")))).toBe("division by zero");
    expect(because(divide(one, subtract(exact(0.3, "mm"), add(exact(0.1, "mm"), exact(0.2, "mm")))))).toBe(
      "division by zero",
    );
    const big = exact(1e140, "mm");
    expect(because(multiply(big, big))).toBe("the number is too large to reckon with");
    expect(because(scale(one, Number.NaN))).toBe("the number is too large to reckon with");
    // The value stays small, the sensitivity to the divisor does not.
    expect(because(divide(plain(1e-10), reading("a", 1e-100, 1e-101, "1")))).toBe(
      "the number is too large to reckon with",
    );
    // Nor may what the reading contributes.
    expect(because(scale(reading("a", 1e-20, 1e140), 1e20))).toBe("the number is too large to reckon with");
  });

  test("ofDimension lets the right dimension through and names the wrong one", () => {
    expect(ofDimension(one, "length")).toBe(one);
    expect(because(ofDimension(one, "angle"))).toBe("an angle was expected, not a length");
    expect(because(ofDimension(exact(1, "deg"), "mass"))).toBe("a mass was expected, not an angle");
  });
});

describe("laws", () => {
  test("a - a is 0 ± 0", () => {
    fc.assert(
      fc.property(someReading, (a) => {
        expect(sure(subtract(a, a))).toEqual({
          kind: "known",
          value: 0,
          dimension: dimensionOf("length"),
          influences: [],
        });
      }),
    );
  });

  test("a × b / b - a is 0 ± 0, whatever the doubles left over", () => {
    fc.assert(
      fc.property(someReading, someReading, (a, b) => {
        fc.pre(sure(b).value !== 0);
        // The same reading has the same value.
        fc.pre(
          sure(a).value === sure(b).value || sure(a).influences[0]?.reading.id !== sure(b).influences[0]?.reading.id,
        );
        const rest = sure(subtract(divide(multiply(a, b), b), a));
        expect([rest.value, rest.influences.length]).toEqual([0, 0]);
      }),
    );
  });

  test("sum and product do not mind the order", () => {
    fc.assert(
      fc.property(someReading, someReading, (a, b) => {
        expect(add(a, b)).toEqual(add(b, a));
        expect(multiply(a, b)).toEqual(multiply(b, a));
      }),
    );
  });

  test("negating twice, scaling by 1, dividing by exact 1 change nothing", () => {
    fc.assert(
      fc.property(someReading, (a) => {
        expect(negate(negate(a))).toEqual(a);
        expect(scale(a, 1)).toEqual(a);
        expect(divide(a, plain(1))).toEqual(a);
      }),
    );
  });

  test("exponents add in a product and subtract in a quotient, for every pair of units", () => {
    for (const left of units()) {
      for (const right of units()) {
        const [a, b] = [sure(exact(6, left.word)), sure(exact(2, right.word))];
        const [over, by] = [sure(multiply(a, b)).dimension, sure(divide(a, b)).dimension];
        for (const key of ["length", "mass", "time", "angle", "turn", "attenuation"] as const) {
          expect(over[key], `${left.word} × ${right.word}`).toBe(a.dimension[key] + b.dimension[key]);
          expect(by[key], `${left.word} / ${right.word}`).toBe(a.dimension[key] - b.dimension[key]);
        }
      }
    }
  });

  test("influences stay sorted by id, without zeros and without repeats", () => {
    fc.assert(
      fc.property(fc.array(someReading, { minLength: 2, maxLength: 8 }), (list) => {
        const { influences } = sure(list.reduce((a, b) => add(scale(a, 0.5), b)));
        const ids = influences.map(({ reading: { id } }) => id);
        expect(ids).toEqual([...new Set(ids)].sort());
        for (const { sensitivity } of influences) expect(sensitivity).not.toBe(0);
      }),
    );
  });

  test("shares of the variance add up to 1, the largest first", () => {
    fc.assert(
      fc.property(fc.array(someReading, { minLength: 1, maxLength: 8 }), (list) => {
        const sum = sure(list.reduce(add));
        const parts = shares(sum).map(({ share }) => share);
        expect(parts).toEqual([...parts].sort((a, b) => b - a));
        const total = parts.reduce((a, b) => a + b, 0);
        if (isExact(sum)) expect(parts).toEqual([]);
        else expect(total).toBeCloseTo(1, 12);
      }),
    );
  });

  test("exact values share one empty array", () => {
    const sum = sure(add(exact(1, "mm"), exact(2, "mm")));
    expect(sum.influences).toBe(sure(plain(3)).influences);
    expect(Object.isFrozen(sum.influences)).toBe(true);
  });

  test("never an exception, never a number that is not one, for any finite input", () => {
    const any = fc.tuple(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.double({ min: 0, max: 1e308, noNaN: true }),
    );
    const operation = fc.constantFrom(add, subtract, multiply, divide);
    fc.assert(
      fc.property(any, any, operation, operation, ([x, ux], [y, uy], first, second) => {
        const a = reading("a", x, ux);
        const b = reading("b", y, uy);
        for (const result of [first(a, b), second(first(a, b), a), absolute(a), negate(b), scale(a, y)]) {
          if (result.kind === "unknown") continue;
          expect(Number.isFinite(result.value)).toBe(true);
          expect(Object.is(result.value, -0)).toBe(false);
          expect(Number.isFinite(standardUncertainty(result))).toBe(true);
          for (const { sensitivity } of result.influences) expect(Number.isFinite(sensitivity)).toBe(true);
          for (const { share } of shares(result)) expect(share).toBeGreaterThanOrEqual(0);
          expect(Number.isFinite(covariance(result, result))).toBe(true);
        }
      }),
      { numRuns: runs(5000) },
    );
  });
});

describe("questions", () => {
  const scar = sure(reading("scar", 416, 2));

  test("value and half-width in another unit", () => {
    expect(valueIn(scar, "cm")).toBeCloseTo(41.6, 12);
    expect(halfWidthIn(scar, "cm")).toBeCloseTo(0.2, 12);
    expect(standardUncertainty(scar)).toBe(1);
    expect(halfWidthIn(sure(exact(3, "mm")), "mm")).toBe(0);
  });

  test("the unit of another dimension, or none, is a mistake of the program", () => {
    expect(() => valueIn(scar, "deg")).toThrow("length has no value in deg");
    expect(() => halfWidthIn(scar, "inch")).toThrow("length has no value in inch");
    expect(() => requireSame(scar, sure(plain(1)))).toThrow("mm and a plain number cannot be compared");
    expect(() => compare(scar, sure(plain(1)))).toThrow(RangeError);
  });

  test("absolute turns value and sensitivity together, and leaves 0 ± u as it is", () => {
    const shortened = sure(absolute(reading("a", -3, 1)));
    expect([shortened.value, shortened.influences[0]?.sensitivity]).toEqual([3, -1]);
    const zero = reading("a", 0, 1);
    expect(absolute(zero)).toBe(zero);
  });

  test("compare: equal within a thousand-millionth of the larger or of the base unit", () => {
    const order = (a: number, b: number) => compare(sure(exact(a, "mm")), sure(exact(b, "mm")));
    expect([order(1, 2), order(2, 1), order(0.1 + 0.2, 0.3)]).toEqual([-1, 1, 0]);
    expect([order(0, 1e-9), order(-1e-9, 0)]).toEqual([0, 0]);
    expect([order(0, 0.9e-9), order(0, 1.1e-9), order(1.1e-9, 0)]).toEqual([0, -1, 1]);
    expect([order(1e6, 1e6 + 0.9e-3), order(1e6, 1e6 + 1.1e-3), order(-1e6, -1e6 - 1.1e-3)]).toEqual([0, -1, 1]);
    expect([order(1e6 + 0.9e-3, 1e6), order(-1e6 - 0.9e-3, -1e6)]).toEqual([0, 0]);
  });

  test("uncertainties whose squares no double can hold", () => {
    for (const size of [1e-200, 1e149]) {
      const sum = sure(add(reading("a", 0, 6 * size), reading("b", 0, 8 * size)));
      expect(standardUncertainty(sum) / size).toBeCloseTo(5, 12);
      expect(correlation(sum, sum)).toBeCloseTo(1, 12);
      expect(shares(sum).map(({ share }) => share)[0]).toBeCloseTo(0.64, 12);
    }
  });

  test("covariance and correlation come from the readings both share", () => {
    const marker = reading("marker", 1, 0.02, "1");
    const a = sure(multiply(add(reading("a", 100, 2), exact(0, "mm")), marker));
    const b = sure(multiply(reading("b", 200, 2), marker));
    // u(marker) 0.01; sensitivities 100 and 200 mm: covariance 1 × 2 mm²; variances 1 + 1 and 1 + 4.
    expect(covariance(a, b)).toBeCloseTo(2, 12);
    expect(correlation(a, b)).toBeCloseTo(2 / Math.sqrt(2 * 5), 12);
    expect(correlation(a, a)).toBeCloseTo(1, 15);
    expect(correlation(a, sure(negate(a)))).toBeCloseTo(-1, 15);
    expect(correlation(a, sure(exact(1, "mm")))).toBe(0);
    expect(correlation(sure(exact(1, "mm")), a)).toBe(0);
    expect(correlation(sure(reading("0", 1, 1)), sure(reading("1", 1, 1)))).toBe(0);
  });

  test("a correlation never passes 1, whatever the rounding", () => {
    fc.assert(
      fc.property(fc.array(someReading, { minLength: 1, maxLength: 8 }), (list) => {
        const sum = sure(list.reduce(add));
        const [same, opposite] = [correlation(sum, sure(scale(sum, 3))), correlation(sum, sure(scale(sum, -3)))];
        expect(Math.max(Math.abs(same), Math.abs(opposite))).toBeLessThanOrEqual(1);
        expect(same).toBeCloseTo(isExact(sum) ? 0 : 1, 12);
        expect(opposite).toBeCloseTo(isExact(sum) ? 0 : -1, 12);
      }),
      { numRuns: runs(1000) },
    );
  });

  test("variance of a sum = both variances and twice the covariance", () => {
    fc.assert(
      fc.property(someReading, someReading, someReading, (a, b, c) => {
        const left = sure(add(a, b));
        const right = sure(subtract(scale(b, 2), c));
        const sum = sure(add(left, right));
        const expected = standardUncertainty(left) ** 2 + standardUncertainty(right) ** 2 + 2 * covariance(left, right);
        expect(standardUncertainty(sum) ** 2).toBeCloseTo(expected, 8);
      }),
    );
  });

  test("a difference of lengths read on one view shares the view's marker", () => {
    const magnification = divide(reading("seen", 28.75, 0.2), exact(25, "mm"));
    const onView = (q: Quantity) => divide(q, magnification);
    const along = subtract(onView(exact(432, "mm")), onView(exact(416, "mm")));
    const direct = onView(exact(16, "mm"));
    expect(numberIn(along, "mm")).toBeCloseTo(numberIn(direct, "mm"), 10);
    expect(halfWidthIn(sure(along), "mm")).toBeCloseTo(halfWidthIn(sure(direct), "mm"), 10);
  });

  test("a value that was made by hand is held to the same promises", () => {
    expect(known(-0, dimensionOf("length"), [])).toEqual(exact(0, "mm"));
  });
});
