/**
 * How far a locking hole lies from the fracture, which is reckoned. No rule judges it by the figure beside it; the
 * limit only names it.
 */
import { describe, expect, test } from "vitest";
import { defaultLimit } from "../../server/findings/limits.ts";
import { compare, constant } from "../../server/quantity/arithmetic.ts";
import { knownOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

// line: HOLE-1: Bucholz, Ross & Lawrence, JBJS Am 1987;69-A:1391-1399: within 5 cm of the hole, femora (printed); the
// distances (computed)
describe("HOLE-1: the fracture 49, 50 and 51 mm above the hole", () => {
  const limit = defaultLimit("fatigue-distance");

  // Hole D2 lies at 8 + 345 - 26 = 327 mm.
  test.each([
    [49, -1],
    [50, 0],
    [51, 1],
  ])("%d mm", (distance, order) => {
    const inTrueSize = { ap: { marker: of(25), seen: of(25) } };
    const plan = workedWith({ ...inTrueSize, fracture: { from: of(250), to: of(327 - distance) } });
    const reckoned = knownOf(plan, "hole.D2.toFracture");
    expect(compare(reckoned, constant(distance, "mm"))).toBe(0);
    expect(compare(reckoned, limit?.least ?? constant(0, "mm"))).toBe(order);
  });

  test("the limit names the source, and that it was of femora", () => {
    expect(limit).toMatchObject({ unit: "mm", basis: { mark: "printed" } });
    expect(limit?.basis.text).toContain("Bucholz");
    expect(limit?.population).toContain("femoral nails");
  });
});
