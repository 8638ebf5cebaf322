/**
 * Two paths to every value: the reckonings of random plans against plain closed forms. No id may be left out on either side. Which
 * plans, and how many, is for the tests that call this.
 */
import fc from "fast-check";
import { expect } from "vitest";
import { valueIn } from "../../server/quantity/arithmetic.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Reckoning } from "../../server/reckoning/reckoning.ts";
import { byHand } from "./by-hand.ts";
import { planFrom } from "./plan-by-hand.ts";
import { numbers } from "./random-numbers.ts";
import type { Numbers } from "./worked-numbers.ts";

/** `unbiased` draws sizes evenly; without it many lie at the ends of their ranges. */
export function expectSameValues(plans: number, unbiased: boolean): void {
  const met = new Map<string, number>();
  fc.assert(
    fc.property(numbers, (given) => {
      const wrong = differences(given, met);
      if (wrong.length > 0) throw new Error(wrong.join("\n"));
    }),
    { numRuns: plans, unbiased },
  );
  // The plans were not all alike: each kind of answer was met, known and unknown.
  expect(met.get("hole.H.path known")).toBeGreaterThan(plans / 10);
  expect(met.get("hole.H.path unknown")).toBeGreaterThan(plans / 100);
  expect(met.get("nail.topDynamised known")).toBeGreaterThan(plans / 100);
  expect(met.get("nail.toKneeJoint known")).toBeGreaterThan(plans / 20);
  expect(met.get("nail.tipDynamised known")).toBeGreaterThan(plans / 100);
  expect(met.get("span.working known")).toBeGreaterThan(plans / 20);
  expect(met.get("gap.motion.most known")).toBeGreaterThan(plans / 100);
  expect(met.get("ream.removed known")).toBeGreaterThan(plans / 10);
  expect(met.get("ream.cortexLeft known")).toBeGreaterThan(plans / 10);
  expect(met.get("block.1.offset known")).toBeGreaterThan(plans / 10);
  expect(met.get("segment word")).toBeGreaterThan(plans / 10);
}

/** Each answer that is not the closed form's, and each that only one side has, in a line. */
function differences(given: Numbers, met: Map<string, number>): readonly string[] {
  const expected = byHand(given);
  const { list, byId } = reckon(planFrom(given));
  const wrong = [...expected.keys()].flatMap((id) => (byId.has(id) ? [] : [`${id}: not reckoned`]));
  for (const reckoning of list) {
    const { id, answer } = reckoning;
    // The tray and the steps are lists of words and have tests of their own.
    if (id === "tray" || id === "steps") continue;
    wrong.push(...disagreement(reckoning, expected.get(id)));
    const kind = `${id.replace(/\.H\d\./, ".H.")} ${answer.kind}`;
    met.set(kind, (met.get(kind) ?? 0) + 1);
  }
  return wrong;
}

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
