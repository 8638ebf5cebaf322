/** Values and corners of roots, powers, trigonometry, choices and rounding; every derivative against central differences. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  add,
  divide,
  exact,
  halfWidthIn,
  isExact,
  multiply,
  plain,
  standardUncertainty,
  subtract,
  unknown,
} from "../../server/quantity/arithmetic.ts";
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
import type { Quantity } from "../../server/quantity/quantity.ts";
import { dimensionOf } from "../../server/quantity/units.ts";
import { runs } from "../runs.ts";
import { because, numberIn, reading, relativeError, sure } from "./sure.ts";

const mm = (value: number) => exact(value, "mm");
const deg = (value: number) => exact(value, "deg");

describe("derivatives", () => {
  /** [what, function of one or two values, unit of the values] */
  const one: readonly (readonly [string, (q: Quantity) => Quantity, string])[] = [
    ["square root", squareRoot, "mm²"],
    ["cube", (q) => power(q, 3), "mm"],
    ["inverse square", (q) => power(q, -2), "mm"],
    ["power 1.5 of a ratio", (q) => power(q, 1.5), "1"],
    ["power 70 of a ratio", (q) => power(divide(q, plain(50)), 70), "1"],
    ["sine", sine, "deg"],
    ["cosine", cosine, "deg"],
    ["tangent", tangent, "deg"],
  ];
  const two: readonly (readonly [string, (a: Quantity, b: Quantity) => Quantity, string])[] = [
    ["hypotenuse", hypotenuse, "mm"],
    ["arc tangent", arcTangent2, "mm"],
    ["product of sine and cosine", (a, b) => multiply(sine(a), cosine(b)), "deg"],
    ["quotient", divide, "mm"],
    ["mean", (a, b) => mean([a, b, a]), "mm"],
    ["least", (a, b) => minimum([a, b]), "mm"],
    ["greatest", (a, b) => maximum([a, b]), "mm"],
  ];
  const between = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });

  test.each(one)("of the %s", (_, apply, unit) => {
    fc.assert(
      fc.property(between(1, 80), (x) => {
        expectSlope(apply(reading("x", x, 2, unit)), "x", x, (at) => apply(exact(at, unit)));
      }),
    );
  });

  test.each(two)("of the %s", (_, apply, unit) => {
    fc.assert(
      fc.property(between(-80, 80), between(2, 80), (x, y) => {
        // Clear of the places where the derivative jumps.
        fc.pre(Math.abs(x) > 0.1 && Math.abs(x - y) > 0.1);
        const result = apply(reading("x", x, 2, unit), reading("y", y, 2, unit));
        expectSlope(result, "x", x, (at) => apply(exact(at, unit), exact(y, unit)));
        expectSlope(result, "y", y, (at) => apply(exact(x, unit), exact(at, unit)));
      }),
    );
  });

  function expectSlope(result: Quantity, id: string, at: number, along: (at: number) => Quantity): void {
    const step = 1e-4 * Math.max(1, Math.abs(at));
    const expected = (sure(along(at + step)).value - sure(along(at - step)).value) / (2 * step);
    const found = sure(result).influences.find((influence) => influence.reading.id === id)?.sensitivity ?? 0;
    expect(Math.abs(found - expected)).toBeLessThanOrEqual(2e-5 * Math.abs(expected) + 1e-9);
    expect(sure(result).value).toBe(sure(along(at)).value);
  }
});

describe("roots and powers", () => {
  test("units follow", () => {
    expect(sure(squareRoot(exact(9, "mm²")))).toEqual(mm(3));
    expect(sure(power(mm(2), 3))).toEqual(exact(8, "mm³"));
    expect(sure(power(plain(2), -2))).toEqual(plain(0.25));
    expect(sure(power(mm(2), -1)).dimension).toEqual({ ...dimensionOf("share"), length: -1 });
    expect(sure(power(mm(7), 0))).toEqual(plain(1));
    expect(sure(power(reading("a", 7, 1), 0))).toEqual(plain(1));
    expect(sure(power(plain(0), 0))).toEqual(plain(1));
    expect(sure(power(reading("a", 0, 1), 0))).toEqual(plain(1));
    expect(sure(power(plain(2), 0.25)).value).toBe(2 ** 0.25);
    expect(numberIn(power(mm(-2), 3), "mm³")).toBe(-8);
  });

  test("what has no unit, no real value or no derivative is unknown", () => {
    expect(because(squareRoot(mm(4)))).toBe("a length to the power 0.5 has no unit");
    expect(because(power(mm(1), 1001))).toBe("a length to the power 1001 has no unit");
    expect(because(power(mm(1), -1001))).toBe("a length to the power -1001 has no unit");
    expect(sure(power(mm(1), 1000)).dimension.length).toBe(1000);
    expect(because(power(mm(1), Number.NaN))).toBe("a length to the power NaN has no unit");
    expect(because(squareRoot(plain(-1)))).toBe("the root of a value below zero");
    expect(because(power(plain(0), -1))).toBe("division by zero");
    expect(because(squareRoot(reading("a", 0, 1, "1")))).toBe("the root of a value that may be below zero");
    expect(because(power(plain(10), 200))).toBe("the number is too large to reckon with");
    expect(because(squareRoot(unknown("why")))).toBe("why");
  });

  test("at zero", () => {
    expect(sure(squareRoot(plain(0)))).toEqual(plain(0));
    expect(sure(power(reading("a", 0, 1), 1))).toEqual(reading("a", 0, 1));
    expect(isExact(sure(power(reading("a", 0, 1), 2)))).toBe(true);
  });

  test("the square root of a square is the magnitude, with its uncertainty", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1e6, noNaN: true }), (x) => {
        const a = reading("a", x, 1);
        const back = sure(squareRoot(multiply(a, a)));
        expect(relativeError(back.value, x)).toBeLessThan(1e-15);
        expect(standardUncertainty(back)).toBeCloseTo(0.5, 12);
      }),
    );
  });

  test("whole powers are the same digits as multiplying", () => {
    expect(sure(power(plain(1.1), 4)).value).toBe(1.1 * 1.1 * 1.1 * 1.1);
    const sixtyFour = Array.from({ length: 64 }, () => 1.1).reduce((a, b) => a * b);
    expect(sure(power(plain(1.1), 64)).value).toBe(sixtyFour);
    expect(sure(power(plain(1.1), -64)).value).toBe(1 / sixtyFour);
  });
});

describe("hypotenuse", () => {
  test("of a right triangle, however short or long", () => {
    expect(numberIn(hypotenuse(mm(3), mm(-4)), "mm")).toBe(5);
    expect(relativeError(numberIn(hypotenuse(mm(3e-200), mm(4e-200)), "mm"), 5e-200)).toBeLessThan(1e-15);
    expect(relativeError(numberIn(hypotenuse(mm(3e149), mm(4e149)), "mm"), 5e149)).toBeLessThan(1e-15);
    expect(numberIn(hypotenuse(mm(0), mm(0)), "mm")).toBe(0);
  });

  test("at the origin the variance is the sum of both, also of opposite readings", () => {
    const a = reading("a", 0, 2);
    const b = reading("b", 0, 4);
    expect(standardUncertainty(sure(hypotenuse(a, b)))).toBeCloseTo(Math.sqrt(1 + 4), 12);
    expect(standardUncertainty(sure(hypotenuse(a, subtract(mm(0), a))))).toBeCloseTo(Math.SQRT2, 12);
    expect(standardUncertainty(sure(hypotenuse(a, mm(0))))).toBe(1);
  });

  test("unknown goes on, dimensions must agree", () => {
    expect(because(hypotenuse(unknown("why"), mm(1)))).toBe("why");
    expect(because(hypotenuse(mm(1), unknown("why")))).toBe("why");
    expect(because(hypotenuse(mm(1), deg(1)))).toBe("mm and deg cannot be taken together: length and angle");
  });
});

describe("angles", () => {
  test("multiples of 30 and 45 deg give what they must", () => {
    const sines = [0, 30, 90, 150, 180, 210, 270, 330, 360].map((angle) => sure(sine(deg(angle))).value);
    expect(sines).toEqual([0, 0.5, 1, 0.5, 0, -0.5, -1, -0.5, 0]);
    const cosines = [0, 60, 90, 120, 180, 240, 270, 300, 360].map((angle) => sure(cosine(deg(angle))).value);
    expect(cosines).toEqual([1, 0.5, 0, -0.5, -1, -0.5, 0, 0.5, 1]);
    expect([45, -45, 135, 225].map((angle) => sure(tangent(deg(angle))).value)).toEqual([1, -1, -1, 1]);
  });

  test("just past half a turn, where adding to the angle would round it", () => {
    // Of an angle this small the sine is the angle in radians, to more digits than a double has.
    const past = 2 ** -45;
    expect(sure(sine(deg(180 + past))).value / ((-past * Math.PI) / 180)).toBeCloseTo(1, 12);
  });

  test("everywhere as the engine's own, to 1e-15", () => {
    fc.assert(
      fc.property(fc.double({ min: -360, max: 360, noNaN: true }), (angle) => {
        const radians = (angle * Math.PI) / 180;
        expect(Math.abs(sure(sine(deg(angle))).value - Math.sin(radians))).toBeLessThan(2e-15);
        expect(Math.abs(sure(cosine(deg(angle))).value - Math.cos(radians))).toBeLessThan(2e-15);
      }),
      { numRuns: runs(2000) },
    );
  });

  test("mirrored angles mirror exactly, whole turns change nothing", () => {
    fc.assert(
      fc.property(fc.integer({ min: -36_000, max: 36_000 }), (hundredths) => {
        const angle = hundredths / 100;
        const value = (of: (q: Quantity) => Quantity, at: number) => sure(of(deg(at))).value;
        expect(value(sine, -angle)).toBe(-value(sine, angle) + 0);
        expect(value(cosine, -angle)).toBe(value(cosine, angle));
        expect(value(sine, angle + 720)).toBeCloseTo(value(sine, angle), 12);
      }),
    );
  });

  test("in radians through their unit", () => {
    expect(sure(sine(exact(Math.PI / 6, "rad"))).value).toBeCloseTo(0.5, 15);
  });

  test("a plain number and a length are refused, unknown goes on", () => {
    expect(because(sine(plain(1)))).toBe("sine needs an angle, not a share");
    expect(because(cosine(mm(1)))).toBe("cosine needs an angle, not a length");
    expect(because(tangent(mm(1)))).toBe("tangent needs an angle, not a length");
    expect(because(tangent(mm(90)))).toBe("tangent needs an angle, not a length");
    for (const apply of [sine, cosine, tangent]) expect(because(apply(unknown("why")))).toBe("why");
  });

  test("a right angle has no tangent", () => {
    for (const angle of [90, -90, 270, 450]) {
      expect(because(tangent(deg(angle)))).toBe("the tangent of a right angle has no bound");
    }
  });

  test("arc tangent in all quadrants", () => {
    const angles = [
      [0, 1, 0],
      [1, 1, 45],
      [1, 0, 90],
      [1, -1, 135],
      [0, -1, 180],
      [-1, -1, -135],
      [-1, 0, -90],
      [-1, 1, -45],
    ] as const;
    for (const [y, x, angle] of angles) expect(numberIn(arcTangent2(mm(y), mm(x)), "deg")).toBeCloseTo(angle, 12);
    expect(because(arcTangent2(mm(0), mm(0)))).toBe("a point at the origin has no direction");
    expect(because(arcTangent2(mm(1), deg(1)))).toBe("mm and deg cannot be taken together: length and angle");
    expect(because(arcTangent2(unknown("why"), mm(1)))).toBe("why");
    expect(because(arcTangent2(mm(1), unknown("why")))).toBe("why");
  });

  test("arc tangent of sine and cosine is the angle, with its uncertainty", () => {
    fc.assert(
      fc.property(fc.integer({ min: -179, max: 179 }), (angle) => {
        const a = reading("a", angle, 3, "deg");
        const back = sure(arcTangent2(sine(a), cosine(a)));
        expect(back.value).toBeCloseTo(angle, 10);
        expect(halfWidthIn(back, "deg")).toBeCloseTo(3, 10);
      }),
    );
  });

  test("the uncertainty of a short radius does not vanish", () => {
    const a = reading("a", 1e-120, 2e-123);
    expect(halfWidthIn(sure(arcTangent2(a, mm(1e-120))), "deg")).toBeCloseTo(0.0573, 4);
  });
});

describe("choices", () => {
  const wide = reading("wide", 12.4, 0.3);
  const deep = reading("deep", 12.2, 0.2);

  test("carry the chosen one's uncertainty", () => {
    expect(minimum([wide, deep])).toBe(deep);
    expect(maximum([deep, wide])).toBe(wide);
    expect(maximum([wide, deep])).toBe(wide);
    expect(minimum([wide])).toBe(wide);
  });

  test("never the less certain one for its uncertainty alone", () => {
    const vague = reading("vague", 12.3, 5);
    expect(minimum([deep, vague])).toBe(deep);
    expect(minimum([vague, deep])).toBe(deep);
    expect(maximum([wide, vague])).toBe(wide);
    expect(maximum([vague, wide])).toBe(wide);
  });

  test("at a tie the less certain one, in either order", () => {
    const same = reading("same", 12.4, 0.1);
    for (const choose of [minimum, maximum]) {
      expect(choose([wide, same])).toBe(wide);
      expect(choose([same, wide])).toBe(wide);
    }
    expect(minimum([mm(1), reading("a", 1, 1)])).toEqual(reading("a", 1, 1));
    const twin = reading("twin", 12.4, 0.3);
    for (const choose of [minimum, maximum]) {
      expect(choose([wide, twin])).toBe(wide);
      expect(choose([twin, wide])).toBe(twin);
    }
  });

  test("nothing, unknown and mixed dimensions", () => {
    for (const choose of [minimum, maximum]) {
      expect(because(choose([]))).toBe("nothing to choose from");
      expect(because(choose([wide, unknown("why"), deg(1)]))).toBe("why");
      expect(because(choose([wide, deg(1)]))).toBe("mm and deg cannot be compared: length and angle");
    }
    expect(because(mean([]))).toBe("nothing to take the mean of");
    expect(because(mean([wide, unknown("why")]))).toBe("why");
    expect(because(mean([wide, deg(1)]))).toBe("mm and deg cannot be added: length and angle");
  });

  test("the mean of equally uncertain readings has u / √n", () => {
    const list = Array.from({ length: 16 }, (_, i) => reading(`r${i}`, i, 2));
    const average = sure(mean(list));
    expect([average.value, standardUncertainty(average)]).toEqual([7.5, 0.25]);
  });
});

describe("rounding to a step", () => {
  test("up and down, over doubles that miss the multiple", () => {
    expect(numberIn(roundDown(mm(352), mm(15)), "mm")).toBe(345);
    expect(numberIn(roundUp(mm(352), mm(15)), "mm")).toBe(360);
    expect(numberIn(roundUp(mm(345), mm(15)), "mm")).toBe(345);
    // 0.3 / 0.1 is 2.9999999999999996 and 0.7 / 0.1 is 6.999999999999999 in doubles.
    expect(numberIn(roundDown(mm(0.3), mm(0.1)), "mm")).toBeCloseTo(0.3, 15);
    expect(numberIn(roundDown(mm(0.7), mm(0.1)), "mm")).toBeCloseTo(0.7, 15);
    expect(numberIn(roundUp(add(mm(0.1), mm(0.2)), mm(0.1)), "mm")).toBeCloseTo(0.3, 15);
    expect(numberIn(roundUp(mm(-7), mm(5)), "mm")).toBe(-5);
    expect(numberIn(roundDown(mm(-7), mm(5)), "mm")).toBe(-10);
    expect(sure(roundUp(mm(-1), mm(5))).value).toBe(0);
  });

  test("a small excess over a multiple counts, noise does not", () => {
    expect(numberIn(roundUp(mm(30.001), mm(2)), "mm")).toBe(32);
    expect(numberIn(roundUp(mm(30 + 1e-9), mm(2)), "mm")).toBe(30);
    expect(numberIn(roundUp(mm(30 + 2.5e-8), mm(2)), "mm")).toBe(30);
    expect(numberIn(roundUp(mm(30 + 4e-8), mm(2)), "mm")).toBe(32);
    expect(numberIn(roundUp(mm(1e-9), mm(1)), "mm")).toBe(0);
    expect(numberIn(roundUp(mm(1.5e-9), mm(1)), "mm")).toBe(1);
    expect(numberIn(roundUp(mm(2e6 + 1e-4), mm(2)), "mm")).toBe(2e6);
    expect(numberIn(roundDown(mm(-2e6 - 1e-4), mm(2)), "mm")).toBe(-2e6);
  });

  test("the result is a decision: exact", () => {
    expect(isExact(sure(roundUp(reading("a", 33.1, 2), mm(2))))).toBe(true);
    expect(isExact(sure(roundDown(mm(33.1), reading("step", 2, 0.1))))).toBe(true);
  });

  test("laws: a multiple, on its side, within one step", () => {
    const hundredths = fc.integer({ min: -100_000, max: 100_000 }).map((whole) => whole / 100);
    fc.assert(
      fc.property(hundredths, fc.constantFrom(0.5, 1, 2, 2.5, 5, 15), (value, step) => {
        const up = numberIn(roundUp(mm(value), mm(step)), "mm");
        const down = numberIn(roundDown(mm(value), mm(step)), "mm");
        expect(up).toBeGreaterThanOrEqual(value);
        expect(down).toBeLessThanOrEqual(value);
        expect([0, step]).toContain(up - down);
        expect(Number.isInteger(up / step)).toBe(true);
      }),
    );
  });

  test("a step of zero or below, mixed dimensions, out of range, unknown", () => {
    expect(because(roundUp(mm(1), mm(0)))).toBe("a step must be above zero");
    expect(because(roundUp(mm(1), mm(-1)))).toBe("a step must be above zero");
    expect(because(roundDown(mm(1), deg(1)))).toBe("mm and deg cannot be rounded: length and angle");
    expect(because(roundDown(mm(1e149), mm(1e-200)))).toBe("the number is too large to reckon with");
    expect(because(roundUp(unknown("why"), mm(1)))).toBe("why");
    expect(because(roundUp(mm(1), unknown("why")))).toBe("why");
  });
});

test("never an exception or a number that is not one, for any finite input", () => {
  const any = fc.tuple(
    fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.integer({ min: -400, max: 400 })),
    fc.double({ min: 0, max: 1e300, noNaN: true }),
    fc.constantFrom("mm", "deg", "1", "mm²"),
  );
  const exponent = fc.oneof(fc.integer({ min: -80, max: 80 }), fc.double());
  fc.assert(
    fc.property(any, any, exponent, ([x, ux, of], [y, uy], n) => {
      const a = reading("a", x, ux, of);
      const b = reading("b", y, uy, of);
      const results = [
        ...[squareRoot, sine, cosine, tangent, (q: Quantity) => power(q, n)].map((apply) => apply(a)),
        ...[hypotenuse, arcTangent2, roundUp, roundDown].map((apply) => apply(a, b)),
        ...[minimum, maximum, mean].map((apply) => apply([a, b])),
      ];
      for (const result of results) {
        if (result.kind === "unknown") continue;
        expect(Number.isFinite(result.value)).toBe(true);
        expect(Object.is(result.value, -0)).toBe(false);
        expect(Number.isFinite(standardUncertainty(result))).toBe(true);
      }
    }),
    { numRuns: runs(5000) },
  );
});
