/**
 * Two paths: every value of random plans against plain closed forms, and its uncertainty against the finite differences of those forms.
 * As many values again are in `second-path-even.test.ts`, so that two workers share them.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import { halfWidthIn } from "../../server/quantity/arithmetic.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { runs } from "../runs.ts";
import { byHand } from "./by-hand.ts";
import { planFrom } from "./plan-by-hand.ts";
import { numbers } from "./random-numbers.ts";
import { expectSameValues } from "./second-path.ts";
import type { Numbers, Reading } from "./worked-numbers.ts";

test("values of 10,000 random plans, many with sizes at the ends of their ranges", { timeout: 240_000 }, () => {
  expectSameValues(runs(10_000), false);
});

test("uncertainties of 500 random plans", { timeout: 240_000 }, () => {
  const plans = runs(500);
  let uncertain = 0;
  let kinked = 0;
  fc.assert(
    fc.property(numbers, (given) => {
      const spreads = spreadsByHand(given);
      const wrong = reckon(planFrom(given)).list.flatMap(({ id, answer, unit }) => {
        if (answer.kind !== "known") return [];
        const found = halfWidthIn(answer, unit);
        const expected = spreads.get(id) ?? 0;
        if (expected === "kinked") {
          kinked += 1;
          return [];
        }
        uncertain += expected > 0 ? 1 : 0;
        return Math.abs(found - expected) <= 1e-4 * expected + 1e-6 ? [] : [`${id}: ${found} instead of ${expected}`];
      });
      expect(wrong).toEqual([]);
    }),
    { numRuns: plans },
  );
  expect(uncertain).toBeGreaterThan(4 * plans);
  expect(kinked).toBeLessThan(uncertain / 100);
});

/**
 * Half-widths (k = 2): the root of the summed squares of what each reading's half-width does to the closed form. At a kink, where two
 * readings tie for the smallest or a level meets another, the form has no one slope and nothing is expected.
 */
function spreadsByHand(given: Numbers): ReadonlyMap<string, number | "kinked"> {
  const squares = new Map<string, number>();
  const kinked = new Set<string>();
  const here = byHand(given);
  for (const path of uncertainReadings(given)) {
    const half = readingAt(given, path).half;
    const step = 1e-5;
    const above = byHand(moved(given, path, step));
    const below = byHand(moved(given, path, -step));
    for (const [id, high] of above) {
      const low = below.get(id);
      const middle = here.get(id);
      if (typeof high !== "number" || typeof low !== "number" || typeof middle !== "number") continue;
      const [up, down] = [(high - middle) / step, (middle - low) / step];
      if (Math.abs(up - down) > 1e-3 * (Math.abs(up) + Math.abs(down)) + 1e-5) kinked.add(id);
      squares.set(id, (squares.get(id) ?? 0) + (((high - low) / (2 * step)) * half) ** 2);
    }
  }
  return new Map([...squares].map(([id, sum]) => [id, kinked.has(id) ? "kinked" : Math.sqrt(sum)]));
}

type Path = readonly (string | number)[];

function uncertainReadings(part: unknown, path: Path = []): readonly Path[] {
  if (typeof part !== "object" || part === null) return [];
  if ("half" in part) return (part as Reading).half > 0 ? [path] : [];
  return Object.entries(part).flatMap(([key, inner]) => uncertainReadings(inner, [...path, key]));
}

function readingAt(given: Numbers, path: Path): Reading {
  return path.reduce((part, key) => (part as Record<string, unknown>)[key], given as unknown) as Reading;
}

function moved(given: Numbers, path: Path, step: number): Numbers {
  const copy = structuredClone(given);
  const reading = readingAt(copy, path) as { value: number };
  reading.value += step;
  return copy;
}
