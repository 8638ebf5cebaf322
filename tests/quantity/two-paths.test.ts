/**
 * The second path of the arithmetic: random expressions over readings, typed decimals and units, reckoned in doubles by the tool
 * and in rationals of whole numbers here, values and sensitivities both, each within its own bound for the rounding of doubles.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import { add, divide, exact, measured, multiply, negate, subtract } from "../../server/quantity/arithmetic.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { runs } from "../runs.ts";
import {
  fromDouble,
  fromText,
  magnitude,
  minus,
  order,
  over,
  plus,
  type Rational,
  rational,
  times,
} from "./rational.ts";

/** A rational with the most that a double in its place may be off. */
interface Bounded {
  readonly at: Rational;
  readonly error: Rational;
}

/** Value and derivative to each reading, in mm and by power of length; undefined where no value comes of it. */
interface Dual {
  readonly value: Bounded;
  readonly slopes: ReadonlyMap<string, Bounded>;
  readonly length: number;
}

type Expression =
  | { readonly kind: "number"; readonly text: string; readonly unit: string; readonly plusMinus: string }
  | { readonly kind: "negated"; readonly of: Expression }
  | { readonly kind: "both"; readonly with: Operator; readonly left: Expression; readonly right: Expression };

type Operator = "+" | "-" | "*" | "/";

/** What the exact path says: a value, "unknown" (no dimension, division by zero), or "close": too near a zero divisor to bound. */
type Outcome = Dual | "unknown" | "close";

// Four units in the last place would do for one operation; the tool may also clear what lies below 16 of them.
const noise = rational(1n, 1n << 47n);
const nothing: Bounded = { at: rational(0n), error: rational(0n) };
const factors = new Map([
  ["mm", { factor: rational(1n), length: 1 }],
  ["cm", { factor: rational(10n), length: 1 }],
  ["m", { factor: rational(1000n), length: 1 }],
  ["1", { factor: rational(1n), length: 0 }],
  ["%", { factor: rational(1n, 100n), length: 0 }],
]);

const decimalText = fc
  .tuple(fc.integer({ min: -9_999, max: 99_999 }), fc.integer({ min: 0, max: 3 }))
  .map(([whole, decimals]) => decimal(whole, decimals));

const numberIn = fc.record({
  kind: fc.constant("number" as const),
  text: decimalText,
  unit: fc.constantFrom("mm", "mm", "mm", "cm", "m", "1", "1", "%"),
  plusMinus: fc.constantFrom("0", "0", "0.2", "1.5", "0.05"),
});

const { expression } = fc.letrec<{ expression: Expression; both: Expression; negated: Expression }>((tie) => ({
  expression: fc.oneof({ maxDepth: 5, depthSize: "large" }, numberIn, tie("both"), tie("both"), tie("negated")),
  negated: fc.record({ kind: fc.constant("negated" as const), of: tie("expression") }),
  both: fc.record({
    kind: fc.constant("both" as const),
    with: fc.constantFrom<Operator[]>("+", "-", "*", "/"),
    left: tie("expression"),
    right: tie("expression"),
  }),
}));

const expressions = runs(25_000);

test("random expressions agree with rationals in value, sensitivities, dimension and unknowns", () => {
  const seen = { known: 0, unknown: 0, close: 0, uncertain: 0 };
  fc.assert(
    fc.property(expression, (tree) => {
      const quantity = inDoubles(tree);
      const outcome = inRationals(tree);
      if (outcome === "close") {
        seen.close++;
      } else if (outcome === "unknown") {
        expect(quantity.kind).toBe("unknown");
        seen.unknown++;
      } else {
        expectSame(quantity, outcome);
        seen.known++;
        if (outcome.slopes.size > 0) seen.uncertain++;
      }
    }),
    { numRuns: expressions },
  );
  // The generator hits what is meant: enough values, enough of them uncertain, few that could not be told.
  expect(seen.known + seen.unknown).toBeGreaterThanOrEqual(0.8 * expressions);
  expect(seen.known).toBeGreaterThanOrEqual(0.4 * expressions);
  expect(seen.uncertain).toBeGreaterThanOrEqual(0.2 * expressions);
  expect(seen.unknown).toBeGreaterThanOrEqual(0.04 * expressions);
});

function expectSame(quantity: Quantity, dual: Dual): void {
  if (quantity.kind === "unknown") throw new Error(`unknown (${quantity.because}), but the rationals have a value`);
  expect(quantity.dimension.length).toBe(dual.length);
  expectWithin(quantity.value, dual.value);
  const found = new Map(quantity.influences.map(({ reading: { id }, sensitivity }) => [id, sensitivity]));
  for (const id of found.keys()) expect(dual.slopes.has(id)).toBe(true);
  for (const [id, slope] of dual.slopes) expectWithin(found.get(id) ?? 0, slope);
}

function expectWithin(found: number, { at, error }: Bounded): void {
  if (order(magnitude(minus(fromDouble(found), at)), error) > 0) {
    throw new Error(`${found} is not ${at.over}/${at.under} within ${error.over}/${error.under}`);
  }
}

function inDoubles(tree: Expression): Quantity {
  if (tree.kind === "negated") return negate(inDoubles(tree.of));
  if (tree.kind === "both") return operations[tree.with](inDoubles(tree.left), inDoubles(tree.right));
  const { text, unit, plusMinus } = tree;
  const id = idOf(tree);
  if (plusMinus === "0") return exact(Number(text), unit, text);
  return measured(Number(text), Number(plusMinus), unit, { id, label: id });
}

const operations = { "+": add, "-": subtract, "*": multiply, "/": divide };

/** The same number with the same ± is the same reading, so that trees hold shared readings. */
function idOf({ text, unit, plusMinus }: Expression & { readonly kind: "number" }): string {
  return `${text} ${unit} ± ${plusMinus}`;
}

function inRationals(tree: Expression): Outcome {
  if (tree.kind === "number") return leaf(tree);
  if (tree.kind === "negated") {
    const inner = inRationals(tree.of);
    if (typeof inner === "string") return inner;
    return { ...inner, value: negated(inner.value), slopes: mapped(inner.slopes, negated) };
  }
  const left = inRationals(tree.left);
  const right = inRationals(tree.right);
  if (left === "close" || right === "close") return "close";
  if (left === "unknown" || right === "unknown") return "unknown";
  return both(tree.with, left, right);
}

function leaf(tree: Expression & { readonly kind: "number" }): Dual {
  const { factor, length } = factors.get(tree.unit) ?? { factor: rational(1n), length: 0 };
  const at = times(fromText(tree.text), factor);
  const one: Bounded = { at: rational(1n), error: rational(0n) };
  const slopes = new Map(tree.plusMinus === "0" ? [] : [[idOf(tree), one]]);
  return { value: { at, error: times(magnitude(at), noise) }, slopes, length };
}

function both(operator: Operator, a: Dual, b: Dual): Outcome {
  const ids = new Set([...a.slopes.keys(), ...b.slopes.keys()]);
  const slope = (join: (da: Bounded, db: Bounded) => Bounded) =>
    new Map([...ids].map((id) => [id, join(a.slopes.get(id) ?? nothing, b.slopes.get(id) ?? nothing)]));
  switch (operator) {
    case "+":
    case "-": {
      if (a.length !== b.length) return "unknown";
      const sign = operator === "+" ? (x: Bounded) => x : negated;
      return { value: sum(a.value, sign(b.value)), slopes: slope((da, db) => sum(da, sign(db))), length: a.length };
    }
    case "*":
      return {
        value: product(a.value, b.value),
        slopes: slope((da, db) => sum(product(b.value, da), product(a.value, db))),
        length: a.length + b.length,
      };
    case "/": {
      if (b.value.at.over === 0n && b.value.error.over === 0n) return "unknown";
      // A divisor not clear of zero by a hundred times its error bound is left to the tests of noise.
      if (order(magnitude(b.value.at), times(b.value.error, rational(100n))) <= 0) return "close";
      const quotient = ratio(a.value, b.value);
      return {
        value: quotient,
        slopes: slope((da, db) => sum(ratio(da, b.value), negated(product(ratio(quotient, b.value), db)))),
        length: a.length - b.length,
      };
    }
  }
}

function negated({ at, error }: Bounded): Bounded {
  return { at: rational(-at.over, at.under), error };
}

function sum(a: Bounded, b: Bounded): Bounded {
  const sizes = plus(plus(magnitude(a.at), a.error), plus(magnitude(b.at), b.error));
  return { at: plus(a.at, b.at), error: trimmed(plus(plus(a.error, b.error), times(sizes, noise))) };
}

function product(a: Bounded, b: Bounded): Bounded {
  const largestA = plus(magnitude(a.at), a.error);
  const largestB = plus(magnitude(b.at), b.error);
  const error = plus(times(largestA, b.error), times(largestB, a.error));
  return { at: times(a.at, b.at), error: trimmed(plus(error, times(times(largestA, largestB), noise))) };
}

function ratio(a: Bounded, b: Bounded): Bounded {
  const least = minus(magnitude(b.at), b.error);
  const error = over(
    plus(times(magnitude(a.at), b.error), times(magnitude(b.at), a.error)),
    times(magnitude(b.at), least),
  );
  const largest = over(plus(magnitude(a.at), a.error), least);
  return { at: over(a.at, b.at), error: trimmed(plus(error, times(largest, noise))) };
}

/** The error rounded up to a 200-bit fraction, so that only the values grow long. */
function trimmed(error: Rational): Rational {
  const under = 1n << 200n;
  return error.over === 0n ? error : rational((error.over * under) / error.under + 1n, under);
}

function mapped(slopes: ReadonlyMap<string, Bounded>, by: (slope: Bounded) => Bounded): ReadonlyMap<string, Bounded> {
  return new Map([...slopes].map(([id, slope]) => [id, by(slope)]));
}

function decimal(whole: number, decimals: number): string {
  const digits = String(Math.abs(whole)).padStart(decimals + 1, "0");
  const head = digits.slice(0, digits.length - decimals);
  const tail = decimals === 0 ? "" : `.${digits.slice(-decimals)}`;
  return `${whole < 0 ? "-" : ""}${head}${tail}`;
}
