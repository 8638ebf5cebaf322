/**
 * Nail lengths by the published offset rules and by two wires: arithmetic of typed expressions, and the length there is room for. Each
 * figure has its source beside it with its mark: printed, computed from the printed rule, common practice.
 */
import { describe, expect, test } from "vitest";
import { add, exact, measured, standardUncertainty, subtract, valueIn } from "../../server/quantity/arithmetic.ts";
import type { Known, Quantity } from "../../server/quantity/quantity.ts";
import { numberOf, plusMinusOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

function sure(quantity: Quantity): Known {
  if (quantity.kind === "unknown") throw new Error(quantity.because);
  return quantity;
}

describe("as a writer would type it", () => {
  test("LEN-1: knee line to ankle line 360 mm, less 20 mm: 340 mm", () => {
    // Injury 2003;34:752: knee joint line to ankle joint line less 20 mm (printed rule; computed).
    expect(valueIn(sure(subtract(exact(360, "mm"), exact(20, "mm"))), "mm")).toBe(340);
  });

  test("LEN-2: tuberosity to ankle line 317 mm, and 11 mm: 328 mm", () => {
    // Issac et al., Chin J Traumatol 2016;19:151: tuberosity to ankle line + 11 mm (printed rule; computed).
    expect(valueIn(sure(add(exact(317, "mm"), exact(11, "mm"))), "mm")).toBe(328);
  });

  test("LEN-3: wire 950 mm, protruding 610 mm: 340 mm, u 1.118 mm", () => {
    // Two-wire subtraction, common practice, no single source; u 0.5 and 1.0 mm by GUM 5.1.2 (computed).
    const wire = measured(950, 1, "mm", { id: "wire", label: "wire" });
    const protruding = measured(610, 2, "mm", { id: "protruding", label: "protruding part" });
    const left = sure(subtract(wire, protruding));
    expect(valueIn(left, "mm")).toBe(340);
    expect(Math.abs(standardUncertainty(left) - 1.118)).toBeLessThan(0.0005);
  });

  test("LEN-4: knee line to ankle line 347.2 mm, less 26.1 mm: 321.1 mm, the series' mean nail", () => {
    // Albay and Kaygusuz, Acta Ortop Bras 2021: means 34.72 cm and 32.11 cm (printed); difference 26.1 mm (computed). Tolerance 0.1.
    expect(Math.abs(valueIn(sure(subtract(exact(34.72, "cm"), exact(26.1, "mm"))), "mm") - 321.1)).toBeLessThan(0.1);
  });
});

describe("the length there is room for", () => {
  // Common practice, no single source: tip at the physeal scar; without a scar 15 mm short of the plafond, as the tool says.
  const inTrueSize = { ap: { marker: of(25), seen: of(25) }, sunk: of(8) };

  test("scar less sunk", () => {
    const plan = workedWith({ ...inTrueSize, scar: of(361, 2), plafond: of(376) });
    expect(numberOf(plan, "length.available")).toBe(353);
    expect(plusMinusOf(plan, "length.available")).toBeCloseTo(2, 12);
  });

  test("without a scar, plafond less 15 mm less sunk", () => {
    const plan = workedWith({ ...inTrueSize, scar: undefined, plafond: of(376) });
    expect(numberOf(plan, "length.available")).toBe(353);
  });

  test("an external estimate cannot choose the length: LEN-5", () => {
    // BMC Musculoskelet Disord 2025;26:395: root mean square error 10.84 mm (printed) as standard uncertainty; lengths by 15 mm,
    // estimate 340 mm ± 21.7 mm (computed): 325, 340 and 355 mm lie within it.
    const estimate = measured(340, 2 * 10.84, "mm", { id: "estimate", label: "external estimate" });
    const half = 2 * standardUncertainty(sure(estimate));
    expect(half.toFixed(1)).toBe("21.7");
    const within = [310, 325, 340, 355, 370].filter((length) => Math.abs(length - 340) <= half);
    expect(within).toEqual([325, 340, 355]);
    const plan = workedWith({ ...inTrueSize, scar: of(348, 2 * 10.84), lengths: [310, 325, 340, 355, 370] });
    expect(numberOf(plan, "length.longest")).toBe(340);
    expect(plusMinusOf(plan, "length.margin")).toBeGreaterThan(15);
  });
});
