/**
 * The parts enclosures are made of, against the bits of doubles, whole-number rationals and trigonometry to 70 digits.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  above,
  below,
  cosineNear,
  directionNear,
  productIsExact,
  quotientIsExact,
  rootIsExact,
  sineNear,
  sumIsExact,
  tangentNear,
} from "../../server/quantity/outward.ts";
import { runs } from "../runs.ts";
import { exactCosine, exactSine } from "./fixed-point.ts";
import { fromDouble, magnitude, minus, order, over, plus, type Rational, rational, times } from "./rational.ts";

const numRuns = runs(20_000);
const finite = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e300, max: 1e300 });
const few = fc.integer({ min: -4096, max: 4096 }).map((count) => count / 64);
const ordinary = fc.oneof(few, fc.double({ noNaN: true, min: -1e3, max: 1e3 }));
const tiny = fc.oneof(
  fc.constantFrom(0, 5e-324, -5e-324, 2.2250738585072014e-308),
  fc.double({ noNaN: true, min: 0, max: 1e-290 }),
);

/** The next double, by its bits. */
function next(x: number, direction: 1 | -1): number {
  if (x === 0) return direction * Number.MIN_VALUE;
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  view.setBigInt64(0, view.getBigInt64(0) + BigInt(x > 0 ? direction : -direction));
  return view.getFloat64(0);
}

describe("the next double", () => {
  test("is above, and at most one is left out", () => {
    fc.assert(
      fc.property(fc.oneof(finite, ordinary, tiny), (x) => {
        const found = above(x);
        expect(found).toBeGreaterThan(x);
        expect(found).toBeLessThanOrEqual(next(next(x, 1), 1));
      }),
      { numRuns },
    );
  });

  test("is below, and at most one is left out", () => {
    fc.assert(
      fc.property(fc.oneof(finite, ordinary, tiny), (x) => {
        const found = below(x);
        expect(found).toBeLessThan(x);
        expect(found).toBeGreaterThanOrEqual(next(next(x, -1), -1));
      }),
      { numRuns },
    );
  });

  test.each([1, 1.5, 2 - 2 ** -52, 2, 345, -1, -2, 1e-300, 1e300])("of %f is the very next", (x) => {
    expect(above(x)).toBe(next(x, 1));
    expect(below(x)).toBe(next(x, -1));
  });
});

describe("whether an operation was exact", () => {
  const same = (rounded: number, exact: Rational) => order(fromDouble(rounded), exact) === 0;

  test("a sum", () => {
    const seen = told(fc.tuple(ordinary, ordinary), ([x, y]) => [
      sumIsExact(x, y, x + y),
      same(x + y, plus(fromDouble(x), fromDouble(y))),
    ]);
    expect(Math.min(seen.exact, seen.rounded)).toBeGreaterThan(numRuns / 10);
  });

  test("a product", () => {
    const seen = told(fc.tuple(ordinary, ordinary), ([x, y]) => {
      const large = x === 0 || y === 0 || Math.abs(x * y) > 2 ** -900;
      return [productIsExact(x, y, x * y), same(x * y, times(fromDouble(x), fromDouble(y))) && large];
    });
    expect(Math.min(seen.exact, seen.rounded)).toBeGreaterThan(numRuns / 10);
  });

  test("a quotient", () => {
    const divisor = ordinary.filter((y) => Math.abs(y) > 1e-9);
    const numerator = ordinary.filter((x) => x === 0 || Math.abs(x) > 1e-9);
    const seen = told(fc.tuple(numerator, divisor), ([x, y]) => [
      quotientIsExact(x, y, x / y),
      same(x / y, over(fromDouble(x), fromDouble(y))),
    ]);
    expect(Math.min(seen.exact, seen.rounded)).toBeGreaterThan(numRuns / 100);
  });

  test("a root", () => {
    const square = fc.oneof(
      few.map((x) => x * x),
      fc.double({ noNaN: true, min: 1e-9, max: 1e6 }),
    );
    const seen = told(square, (x) => {
      const root = fromDouble(Math.sqrt(x));
      return [rootIsExact(x, Math.sqrt(x)), order(times(root, root), fromDouble(x)) === 0];
    });
    expect(Math.min(seen.exact, seen.rounded)).toBeGreaterThan(numRuns / 10);
  });

  test("nothing that small is called exact, but 0 is", () => {
    expect(productIsExact(1e-200, 1e-200, 0)).toBe(false);
    expect(productIsExact(2 ** -500, 2 ** -500, 2 ** -1000)).toBe(false);
    expect(productIsExact(2 ** -450, 2 ** -450, 2 ** -900)).toBe(true);
    expect(productIsExact(0, 0.1, 0)).toBe(true);
    expect(productIsExact(0.1, 0, 0)).toBe(true);
    expect(quotientIsExact(0, 0.1, 0)).toBe(true);
    expect(quotientIsExact(5e-324, 3, 0)).toBe(false);
    expect(rootIsExact(0, 0)).toBe(true);
    expect(productIsExact(1e300, 1e300, Number.POSITIVE_INFINITY)).toBe(false);
  });

  function told<Case>(cases: fc.Arbitrary<Case>, tell: (given: Case) => readonly [boolean, boolean]) {
    const seen = { exact: 0, rounded: 0 };
    fc.assert(
      fc.property(cases, (given) => {
        const [found, expected] = tell(given);
        expect(found).toBe(expected);
        seen[expected ? "exact" : "rounded"]++;
      }),
      { numRuns },
    );
    return seen;
  }
});

describe("trigonometry of degrees", () => {
  // 16 units in the last place are what enclosures allow the value and this together; this alone keeps within 6.
  const bound = rational(6n, 1n << 52n);
  const angle = fc.oneof(
    fc.integer({ min: -1440, max: 1440 }),
    fc.double({ noNaN: true, min: -720, max: 720 }),
    fc
      .tuple(fc.integer({ min: -8, max: 8 }), fc.double({ noNaN: true, min: -1e-6, max: 1e-6 }))
      .map(([n, off]) => n * 90 + off),
  );
  const floor = rational(1n, 1n << 230n);
  const trigonometryRuns = runs(4000);

  test.each([
    ["sine", sineNear, exactSine],
    ["cosine", cosineNear, exactCosine],
    ["tangent", tangentNear, (degrees: Rational) => over(exactSine(degrees), exactCosine(degrees))],
  ] as const)("%s", (name, near, exact) => {
    fc.assert(
      fc.property(angle, (degrees) => {
        if (name === "tangent" && degrees % 180 !== 0 && degrees % 90 === 0) {
          expect(Math.abs(tangentNear(degrees))).toBe(Number.POSITIVE_INFINITY);
          return;
        }
        expectNear(near(degrees), exact(fromDouble(degrees)), bound);
      }),
      { numRuns: trigonometryRuns },
    );
  });

  test("direction of a point", () => {
    fc.assert(
      fc.property(ordinary, ordinary, (y, x) => {
        fc.pre(Math.abs(y) > 1e-200 || Math.abs(x) > 1e-200);
        const direction = directionNear(y, x);
        expect(Math.abs(direction)).toBeLessThanOrEqual(180);
        const at = fromDouble(direction);
        const [sine, cosine] = [exactSine(at), exactCosine(at)];
        // The point lies that way, not the opposite one; and r sin(θ - direction) is next to nothing, r cos of it all of r.
        const along = plus(times(fromDouble(x), cosine), times(fromDouble(y), sine));
        const beside = minus(times(fromDouble(y), cosine), times(fromDouble(x), sine));
        expect(order(along, rational(0n))).toBe(1);
        const most = times(times(along, fromDouble(Math.abs(direction) / 57)), bound);
        expectWithin(beside, plus(most, floor));
      }),
      { numRuns: trigonometryRuns },
    );
  });

  test.each([
    [0, 1, 0],
    [0, -1, 180],
    [1, 0, 90],
    [-1, 0, -90],
    [1, 1, 45],
    [1, -1, 135],
    [-1, -1, -135],
    [-1, 1, -45],
  ])("direction of y = %d, x = %d", (y, x, expected) => {
    expect(directionNear(y, x)).toBeCloseTo(expected, 12);
  });

  test("the origin has none", () => {
    expect(directionNear(0, 0)).toBeNaN();
  });

  function expectNear(found: number, exact: Rational, part: Rational): void {
    expectWithin(minus(fromDouble(found), exact), plus(times(magnitude(exact), part), floor));
  }

  function expectWithin(found: Rational, most: Rational): void {
    expect(order(magnitude(found), most)).toBeLessThanOrEqual(0);
  }
});
