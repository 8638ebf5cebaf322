/**
 * Magnification and lengths read through it against published figures. Each has its source beside it with its mark:
 * printed (stands so in the source), computed (arithmetic on the printed formula), from memory.
 */
import { describe, expect, test } from "vitest";
import { halfWidthIn, measured, multiply, standardUncertainty, valueIn } from "../../server/quantity/arithmetic.ts";
import { knownOf, numberOf, plusMinusOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

// line: MAG-1: GUM 5.1.2 (computed): u 0.02, 0.15 and 0.5 mm
// line: MAG-2: Klever 2022, doi 10.1055/s-0041-1735316: 1 cm of height about 1 % of size (printed, measured at the
// hip); u (computed)
describe("MAG-1 and MAG-2: a marker of 25 mm seen as 28.75 mm, a bone of 414 mm on the image", () => {
  const plan = workedWith({ ap: { marker: of(25, 0.04), seen: of(28.75, 0.3) }, scar: of(414, 1) });

  test("MAG-1: M = 1.1500, u = 0.00607", () => {
    expect(numberOf(plan, "magnification.ap", "1")).toBeCloseTo(1.15, 12);
    expect(Math.abs(plusMinusOf(plan, "magnification.ap", "1") / 2 - 0.00607)).toBeLessThan(0.00001);
  });

  test("MAG-1: length 360.00 mm, u = 1.949 mm, U (k = 2) = 3.90 mm", () => {
    expect(Math.abs(numberOf(plan, "level.scar") - 360)).toBeLessThan(0.001);
    expect(Math.abs(plusMinusOf(plan, "level.scar") / 2 - 1.949)).toBeLessThan(0.001);
    expect(plusMinusOf(plan, "level.scar").toFixed(2)).toBe("3.90");
  });

  test("MAG-2: with the marker 1 cm off the plane of the bone at most, rectangular 1 %: u = 2.850 mm", () => {
    const plane = measured(1, (2 * 0.01) / Math.sqrt(3), "1", {
      id: "plane",
      label: "marker off the plane of the bone",
    });
    const length = multiply(knownOf(plan, "level.scar"), plane);
    if (length.kind === "unknown") throw new Error(length.because);
    expect(Math.abs(valueIn(length, "mm") - 360)).toBeLessThan(0.001);
    expect(Math.abs(standardUncertainty(length) - 2.85)).toBeLessThan(0.001);
    expect(halfWidthIn(length, "mm")).toBeCloseTo(2 * standardUncertainty(length), 12);
  });
});

// line: MAG-3: Proc. British Hip Society, J Bone Joint Surg Br 88-B Supp II 247: a coin of 24.5 mm seen as 27.17 to
// 29.40 mm, 10.9 to 20.0 % larger (printed); the ratios (computed)
// line: MAG-4: physics textbooks, M = SID / SOD = SID / (SID - OID) (printed)
describe("MAG-3 and MAG-4: markers of known size", () => {
  test.each([
    [24.5, 27.17, 1.10898, "10.9"],
    [24.5, 29.4, 1.2, "20.0"],
  ])("MAG-3: %d mm seen as %d mm: %d", (marker, seen, ratio, percent) => {
    const magnification = numberOf(workedWith({ ap: { marker: of(marker), seen: of(seen) } }), "magnification.ap", "1");
    expect(Math.abs(magnification - ratio)).toBeLessThan(0.00001);
    expect(((magnification - 1) * 100).toFixed(1)).toBe(percent);
  });

  // 100 over 40; 42 over 42 - 10; 40 over 40 - 8: an object of 10 mm in that beam.
  test.each([
    [100, 100 - 40, 2.5],
    [42, 10, 1.3125],
    [40, 8, 1.25],
  ])("MAG-4: source to image %d, object to image %d: %d", (source, offset, ratio) => {
    const seen = (10 * source) / (source - offset);
    expect(numberOf(workedWith({ ap: { marker: of(10), seen: of(seen) } }), "magnification.ap", "1")).toBeCloseTo(
      ratio,
      12,
    );
  });
});
