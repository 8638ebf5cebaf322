/**
 * The travel budget of the driving end: what compression, dynamisation and a cap take from the depth a nail is buried
 * at. The sign is the tool's own: a level below 0 stands proud.
 */
import { describe, expect, test } from "vitest";
import { numberOf, reasonOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

// line: TRAV-1: geometry of a nail that moves with the far fragment (computed): 5 - 3 = 2 mm left; 5 - 8 = -3 mm, proud
describe("TRAV-1: buried 5 mm, compression 3 mm, slot set free by dynamisation", () => {
  const compressed = { sunk: of(5), turns: undefined, compress: of(3) };

  test("after compression 2 mm are left", () => {
    expect(numberOf(workedWith(compressed), "nail.topAfter")).toBe(2);
    expect(numberOf(workedWith(compressed), "overinsertion.needed")).toBe(3);
  });

  test("with 5 mm of slot left, the driving end would stand 3 mm proud", () => {
    const holes = [
      { name: "P2", end: "top", distance: 28, runs: "medial-lateral", slot: 8 },
      { name: "P1", end: "top", distance: 40, runs: "medial-lateral" },
      { name: "D2", end: "tip", distance: 26, runs: "medial-lateral" },
      { name: "D1", end: "tip", distance: 12, runs: "medial-lateral" },
    ] as const;
    const plan = workedWith({ ...compressed, holes, dynamise: ["P1"] });
    expect(numberOf(plan, "dynamisation.left")).toBe(5);
    expect(numberOf(plan, "nail.topDynamised")).toBe(-3);
    expect(numberOf(plan, "overinsertion.needed")).toBe(8);
    expect(reasonOf(plan, "nail.tipDynamised")).toBe("absent");
  });

  test("a slot at the far end leaves the driving end where it is and brings the tip nearer to the joint", () => {
    // The same 8 mm at the tip (computed): the tip moves, the driving end does not.
    const holes = [
      { name: "P1", end: "top", distance: 40, runs: "medial-lateral" },
      { name: "D2", end: "tip", distance: 26, runs: "medial-lateral", slot: 8 },
      { name: "D1", end: "tip", distance: 12, runs: "medial-lateral" },
    ] as const;
    const locks = [{ hole: "P1" }, { hole: "D2" }, { hole: "D1" }];
    const plan = workedWith({ ...compressed, holes, locks, dynamise: ["D1"] });
    expect(numberOf(plan, "dynamisation.left")).toBe(8);
    expect(numberOf(plan, "nail.tipDynamised")).toBe(numberOf(plan, "nail.tip") + 8);
    expect(reasonOf(plan, "nail.topDynamised")).toBe("absent");
    expect(numberOf(plan, "overinsertion.needed")).toBe(3);
  });
});

// line: CAP-1: geometry, buried 12 mm (computed): a cap of 10 mm leaves 2 mm, one of 15 mm stands 3 mm proud.
test.each([
  [10, 2],
  [15, -3],
])("CAP-1: buried 12 mm, cap %d mm: top of the cap at %d mm", (cap, top) => {
  expect(numberOf(workedWith({ sunk: of(12), turns: undefined, cap }), "cap.top")).toBe(top);
});
