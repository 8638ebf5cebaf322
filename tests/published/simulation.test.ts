/** The tool's own Monte Carlo against the additive example of the guide: a level typed as the sum of four readings. */
import { describe, expect, test } from "vitest";
import { simulate } from "../../server/answers/simulate.ts";
import { analyseText, sampleLibrary } from "../check.ts";

/** The level of a landmark that is a sum of readings with these standard uncertainties, all of them normal. */
function summed(uncertainties: readonly number[]) {
  const sum = uncertainties.map((each) => `100 mm ± ${2 * each} mm`).join(" + ");
  const analysis = analyseText(`isthmus 1\n\nplan "Invented" {\n  measures {\n    landmark scar ${sum}\n  }\n}\n`);
  const level = simulate(analysis, sampleLibrary(), trials, 20_080_101).find(({ id }) => id === "level.scar");
  if (level === undefined) throw new Error("the level was not simulated");
  return level;
}

const trials = 10_000;

// line: JCGM-101-9.2: JCGM 101:2008, 9.2.2: four normal inputs: u 2.00, 95 % within ± 3.92; 9.2.4: u 10.15 (printed)
describe("JCGM-101-9.2: an additive model by the tool's own trials", () => {
  test("four readings of u 1 mm: u 2.00 mm", () => {
    const level = summed([1, 1, 1, 1]);
    expect(level.halfWidth / 2).toBeCloseTo(2, 12);
    // Four standard errors of a standard deviation of 10,000 trials.
    expect(Math.abs(level.deviation - 2)).toBeLessThan((4 * 2) / Math.sqrt(2 * trials));
    // The tool's interval holds 95.45 %: ± 3.92 × 2 / 1.96; its ends are less sure than the deviation.
    expect(Math.abs(level.high - level.mean - (3.92 * 2) / 1.96)).toBeLessThan(0.25);
    expect(Math.abs(level.mean - level.low - (3.92 * 2) / 1.96)).toBeLessThan(0.25);
    expect(level.agrees).toBe(true);
  });

  test("one of them of u 10 mm: u 10.15 mm", () => {
    const level = summed([1, 1, 1, 10]);
    expect(Math.abs(level.halfWidth / 2 - 10.15)).toBeLessThan(0.005);
    expect(Math.abs(level.deviation - 10.15)).toBeLessThan((4 * 10.15) / Math.sqrt(2 * trials));
    expect(level.agrees).toBe(true);
  });
});
