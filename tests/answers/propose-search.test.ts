/** The search against trying everything: on small invented worlds both find the same three, and nothing where there is nothing. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Proposal, propose } from "../../server/answers/propose.ts";
import { valueIn } from "../../server/quantity/arithmetic.ts";
import { analysed, type Combination, openPlan, type SmallNail, type SmallWorld, threeBest } from "./propose-by-hand.ts";

const ascending = (sizes: readonly number[]): number[] => [...new Set(sizes)].sort((a, b) => a - b);
const some = (sizes: readonly number[], most: number): fc.Arbitrary<number[]> =>
  fc.subarray([...sizes], { minLength: 1, maxLength: most }).map(ascending);

const nails = (name: string): fc.Arbitrary<SmallNail> =>
  fc.record({
    name: fc.constant(name),
    bone: fc.constantFrom(...Array<"tibia">(7).fill("tibia"), "femur"),
    diameters: some([8, 9, 10, 11], 3),
    lengths: some([225, 240, 285, 300, 315, 330], 3),
    caps: fc.constantFrom([], [0, 5], [0, 5, 10], [5]),
    fits: fc.constantFrom(["42A2"], ["42A2", "42A3"], [], [], ["42A2"], ["42B2"]),
  });

/** Heads by half a millimetre, some missing. */
function headsFrom(first: number, count: number, gaps: readonly number[]): number[] {
  return Array.from({ length: count }, (_, at) => first + at / 2).filter((_, at) => !gaps.includes(at));
}

const worlds: fc.Arbitrary<SmallWorld> = fc.record({
  nails: fc.oneof(
    nails("alder").map((nail) => [nail]),
    fc.tuple(nails("alder"), nails("birch")),
  ),
  heads: fc
    .tuple(fc.constantFrom(8, 8.5, 9), fc.integer({ min: 2, max: 7 }), fc.subarray([1, 2, 3, 4], { maxLength: 1 }))
    .map(([first, count, gaps]) => headsFrom(first, count, gaps)),
  frontCutting: fc.constantFrom([], [8], [8, 8.5]),
  scar: fc.integer({ min: 300, max: 350 }),
  scarHalfWidth: fc.constantFrom(0, 2, 6, 12),
  canal: fc.integer({ min: 16, max: 23 }).map((half) => half / 2),
  canalHalfWidth: fc.constantFrom(0, 0.2, 0.6),
  turns: fc.constantFrom(0, 2, 4),
  sunk: fc.constantFrom(undefined, undefined, 3, 8, 12),
  unreamed: fc.constantFrom(false, false, false, true),
  ownCap: fc.constantFrom(undefined, undefined, "none" as const, 5),
  errors: fc.constantFrom([], [], [], [], ["fit-ratio"], ["nail-long"], ["nail-short"], ["screw-near-fracture"]),
});

function combinationOf({ candidate, plan }: Proposal): Combination {
  const inMm = (quantity: Proposal["candidate"]["length"]): number => valueIn(quantity, "mm");
  const cap = plan.steps.find((step) => step.kind === "cap");
  const extension = cap?.extension?.quantity;
  return {
    nail: candidate.nail.name.text,
    diameter: inMm(candidate.diameter),
    heads: candidate.heads.map(inMm),
    length: inMm(candidate.length),
    sunk: inMm(candidate.sunk),
    cap: cap?.none ? "none" : extension?.kind === "known" ? inMm(extension) : undefined,
  };
}

describe("the search", () => {
  test("finds the three best of everything there is", { timeout: 600_000 }, () => {
    const seen = { nothing: 0, three: 0, pruned: 0 };
    fc.assert(
      fc.property(worlds, (world) => {
        const proposed = propose(analysed(world, openPlan(world)));
        const best = threeBest(world);
        expect(proposed.proposals.map(combinationOf)).toEqual(best);
        expect(proposed.because.length > 0).toBe(best.length === 0);
        expect(proposed.complete).toBe(true);
        if (best.length === 0) seen.nothing += 1;
        if (best.length === 3) seen.three += 1;
        if (proposed.judged < proposed.candidates) seen.pruned += 1;
      }),
      { numRuns: 200 },
    );
    // A law that only ever met one kind of world would say little.
    expect(Math.min(seen.nothing, seen.three, seen.pruned)).toBeGreaterThan(10);
  });
});
