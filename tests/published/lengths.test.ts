/**
 * Nail lengths by the published offset rules and by two wires: arithmetic of typed expressions, and the length there is
 * room for. Each figure has its source beside it with its mark: printed, computed from the printed rule, common
 * practice.
 */
import { describe, expect, test } from "vitest";
import { constant, standardUncertainty, valueIn } from "../../server/quantity/arithmetic.ts";
import { print } from "../../server/quantity/print.ts";
import { probabilityAbove } from "../../server/quantity/probability.ts";
import type { Known } from "../../server/quantity/quantity.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { nailLength } from "../findings/clinical/changes.ts";
import { changed, findingsOf } from "../findings/judged.ts";
import { knownOf, numberOf, plusMinusOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

/** A nail length as a writer types it among the measures. */
function typed(expression: string): Known {
  const scar = "landmark scar 416 mm ± 2 mm on ap\n";
  const { document } = changed([scar, `${scar}    nail-length ${expression}\n`]).meaning;
  const length = document?.kind === "plan" ? document.measures.nailLength?.quantity : undefined;
  if (length?.kind !== "known") throw new Error(length?.because ?? "no nail length was read");
  return length;
}

// line: LEN-1: Injury 2003;34:752: knee joint line to ankle joint line less 20 mm (printed rule; computed)
// line: LEN-2: Issac et al., Chin J Traumatol 2016;19:151: tuberosity to ankle joint line and 11 mm (printed rule;
// computed)
// line: LEN-3: two-wire subtraction, common practice, no single source; u 0.5 and 1.0 mm by GUM 5.1.2 (computed)
// line: LEN-4: Albay and Kaygusuz, Acta Ortop Bras 2021: means 34.72 cm and 32.11 cm (printed); difference 26.1 mm
// (computed)
describe("LEN-1 to LEN-4: as a writer types it", () => {
  test("LEN-1: knee line to ankle line 360 mm, less 20 mm: 340 mm", () => {
    expect(valueIn(typed("360 mm - 20 mm"), "mm")).toBe(340);
  });

  test("LEN-2: tuberosity to ankle line 317 mm, and 11 mm: 328 mm", () => {
    expect(valueIn(typed("317 mm + 11 mm"), "mm")).toBe(328);
  });

  test("LEN-3: wire 950 mm, protruding 610 mm: 340 mm, u 1.118 mm", () => {
    const left = typed("950 mm ± 1 mm - 610 mm ± 2 mm");
    expect(valueIn(left, "mm")).toBe(340);
    expect(Math.abs(standardUncertainty(left) - 1.118)).toBeLessThan(0.0005);
  });

  test("LEN-4: knee line to ankle line 347.2 mm, less 26.1 mm: 321.1 mm, the series' mean nail", () => {
    // Tolerance 0.1 mm.
    expect(Math.abs(valueIn(typed("34.72 cm - 26.1 mm"), "mm") - 321.1)).toBeLessThan(0.1);
  });
});

// line: LEN-5: BMC Musculoskelet Disord 2025;26:395, doi 10.1186/s12891-025-08657-1: root mean square error 10.84 mm
// (printed); the lengths within it (computed). Where the tip belongs: common practice, no single source
describe("LEN-5: the length there is room for", () => {
  // Tip at the physeal scar; without a scar 15 mm short of the plafond, as the tool says.
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

  test("an external estimate of 340 mm cannot choose the length", () => {
    const lengths = [310, 325, 340, 355, 370];
    const plan = workedWith({ ...inTrueSize, scar: of(348, 2 * 10.84), lengths });
    expect(numberOf(plan, "length.longest")).toBe(340);
    expect(print(knownOf(plan, "length.available"), "mm")).toBe("340 mm ± 22 mm");
    expect(plusMinusOf(plan, "length.available").toFixed(1)).toBe("21.7");
    // Within the half-width lie 325, 340 and 355 mm; none is decided, as the chance of each to fit says.
    const room = knownOf(plan, "length.available");
    const open = lengths.filter((length) => {
      const fits = probabilityAbove(room, constant(length, "mm"));
      return fits > 0.05 && fits < 0.95;
    });
    expect(open).toEqual([325, 340, 355]);
    const { byId } = reckon(plan);
    expect(byId.get("length.margin")?.remark).toBe("probability that 340 mm fits: 50 %");
    expect(byId.get("length.nextMargin")?.remark).toBe("probability that 355 mm fits: 8 %");
  });

  // The finding by the chance that the length is too long: silent below 5 %, and never sure here.
  test.each([
    ["310 mm", undefined],
    ["325 mm", "8 %"],
    ["340 mm", "50 %"],
    ["355 mm", "92 %"],
  ] as const)("a nail of %s may be too long by %s", (length, chance) => {
    const analysis = changed(
      ["landmark scar 416 mm ± 2 mm on ap", "landmark scar 348 mm ± 21.68 mm"],
      ["lengths 240 mm to 420 mm by 15 mm", "lengths 310 mm to 370 mm by 15 mm"],
      nailLength(length),
    );
    const found = findingsOf(analysis, "nail-long");
    expect(found.map(({ grade }) => grade)).toEqual(chance === undefined ? [] : ["information"]);
    if (chance !== undefined) expect(found[0]?.message).toMatch(new RegExp(` may .*\\(probability ${chance}\\)`));
  });
});
