/**
 * Two paths: every reckoning of random plans against plain closed forms, and its uncertainty against the finite differences of those
 * forms. No id may be left out on either side.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import { halfWidthIn, valueIn } from "../../server/quantity/arithmetic.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Reckoning } from "../../server/reckoning/reckoning.ts";
import { runs } from "../runs.ts";
import { byHand } from "./by-hand.ts";
import { planFrom } from "./plan-by-hand.ts";
import { numbers } from "./random-numbers.ts";
import type { Numbers, Reading } from "./worked-numbers.ts";

const plans = runs(2000);

test("values of random plans", { timeout: 240_000 }, () => {
  const met = new Map<string, number>();
  fc.assert(
    fc.property(numbers, (given) => {
      const expected = byHand(given);
      // The tray and the steps are lists of words and have tests of their own.
      const list = reckon(planFrom(given)).list.filter(({ id }) => id !== "tray" && id !== "steps");
      expect(list.map(({ id }) => id).sort()).toEqual([...expected.keys()].sort());
      expect(list.flatMap((reckoning) => disagreement(reckoning, expected.get(reckoning.id)))).toEqual([]);
      for (const { id, answer } of list) {
        const kind = `${id.replace(/\.H\d\./, ".H.")} ${answer.kind}`;
        met.set(kind, (met.get(kind) ?? 0) + 1);
      }
    }),
    { numRuns: plans },
  );
  // The plans were not all alike: each kind of answer was met, known and unknown.
  expect(met.get("hole.H.path known")).toBeGreaterThan(plans / 10);
  expect(met.get("hole.H.path unknown")).toBeGreaterThan(plans / 100);
  expect(met.get("nail.topDynamised known")).toBeGreaterThan(plans / 100);
  expect(met.get("nail.tipDynamised known")).toBeGreaterThan(plans / 100);
  expect(met.get("span.working known")).toBeGreaterThan(plans / 20);
  expect(met.get("gap.motion.most known")).toBeGreaterThan(plans / 100);
  expect(met.get("ream.removed known")).toBeGreaterThan(plans / 10);
  expect(met.get("ream.cortexLeft known")).toBeGreaterThan(plans / 10);
  expect(met.get("segment word")).toBeGreaterThan(plans / 10);
});

test("uncertainties of random plans", { timeout: 240_000 }, () => {
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
    { numRuns: plans / 4 },
  );
  expect(uncertain).toBeGreaterThan(plans);
  expect(kinked).toBeLessThan(uncertain / 100);
});

/** What is wrong with an answer: nothing, or one line. */
function disagreement({ id, answer, unit }: Reckoning, expected: number | string | null | undefined): string[] {
  if (answer.kind === "unknown") {
    return expected === null ? [] : [`${id}: unknown (${answer.because}) instead of ${expected}`];
  }
  if (answer.kind === "word") {
    return answer.word === expected ? [] : [`${id}: ${answer.word} instead of ${expected}`];
  }
  const value = valueIn(answer, unit);
  const near = typeof expected === "number" && Math.abs(value - expected) <= 1e-9 * Math.max(1, Math.abs(expected));
  return near ? [] : [`${id}: ${value} instead of ${expected}`];
}

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
