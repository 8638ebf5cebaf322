/**
 * The normal distribution against tabled quantiles, against the error function of mathjs, and in its tails against an
 * integral.
 */
import { erf } from "mathjs";
import { describe, expect, test } from "vitest";
import { normalCdf } from "../../server/quantity/probability.ts";
import { relativeError } from "../quantity/sure.ts";

const grid = (from: number, to: number, by: number) =>
  Array.from({ length: Math.round((to - from) / by) + 1 }, (_, i) => from + i * by);

// line: GUM-G1: JCGM 100:2008, Table G.1 (from memory)
test("GUM-G1: coverage factors of JCGM 100:2008, Table G.1", () => {
  // Level of confidence in per cent and coverage factor.
  const table: readonly (readonly [number, number])[] = [
    [68.27, 1],
    [90, 1.645],
    [95, 1.96],
    [95.45, 2],
    [99, 2.576],
    [99.73, 3],
  ];
  for (const [percent, k] of table) {
    expect(Math.abs(100 * (normalCdf(k) - normalCdf(-k)) - percent), `k = ${k}`).toBeLessThan(0.011);
  }
});

// line: NORMAL: Abramowitz and Stegun, Table 26.1 (from memory): P(1) = 0.84134 47460 68543; the rest against mathjs
// and an integral (computed)
test("NORMAL: the tabled value at 1 to 15 digits", () => {
  expect(normalCdf(1)).toBeCloseTo(0.841_344_746_068_543, 15);
  expect(normalCdf(0)).toBe(0.5);
});

test("NORMAL: between -6 and 6 as ½ (1 + erf(x / √2)) of mathjs", () => {
  for (const x of grid(-6, 6, 0.01)) {
    expect(Math.abs(normalCdf(x) - 0.5 * (1 + erf(x / Math.SQRT2))), `x = ${x}`).toBeLessThan(1e-15);
  }
});

describe("NORMAL: laws", () => {
  test("both sides make 1, and it never falls", () => {
    let before = 0;
    for (const x of grid(-40, 40, 0.01)) {
      const here = normalCdf(x);
      expect(here).toBeGreaterThanOrEqual(before);
      expect(Math.abs(here + normalCdf(-x) - 1)).toBeLessThan(1e-15);
      before = here;
    }
    expect([normalCdf(-1e300), normalCdf(1e300)]).toEqual([0, 1]);
    expect([normalCdf(Number.NEGATIVE_INFINITY), normalCdf(Number.POSITIVE_INFINITY)]).toEqual([0, 1]);
  });

  test("small probabilities keep their digits: against Simpson's rule for the tail", () => {
    for (const x of [0.5, 1, 2, 2.9, 2.999, 3, 3.001, 4, 5, 8, 12, 20, 30, 37]) {
      expect(relativeError(normalCdf(-x), tailByIntegral(x)), `x = ${x}`).toBeLessThan(2e-13);
    }
  });

  /** Density at x times the integral of exp(-x t - t²/2) over t from 0 on; nothing cancels in it. */
  function tailByIntegral(x: number): number {
    const end = Math.min(12, 45 / x);
    const steps = 20_000;
    const width = end / steps;
    let sum = 0;
    for (let i = 0; i <= steps; i++) {
      const t = i * width;
      const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
      sum += weight * Math.exp(-x * t - (t * t) / 2);
    }
    return ((Math.exp(-(x * x) / 2) / Math.sqrt(2 * Math.PI)) * sum * width) / 3;
  }
});
