/** The search against trying everything: on small invented worlds both find the same three, and nothing where there is nothing. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Proposal, propose } from "../../server/answers/propose.ts";
import { valueIn } from "../../server/quantity/arithmetic.ts";
import { analysed, type Combination, openPlan, threeBest, worlds } from "./propose-by-hand.ts";

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
