/**
 * Rotation against the other side, raw and after the correction between right and left that a series found, and the
 * shares of patients that the rules name as their population.
 */
import { describe, expect, test } from "vitest";
import { rule as alignmentOff } from "../../server/findings/alignment-off.ts";
import { rule as rotationOff } from "../../server/findings/rotation-off.ts";
import { printPercent } from "../../server/quantity/print.ts";
import { achieved } from "../findings/clinical/changes.ts";
import { changed, findingsOf } from "../findings/judged.ts";

function found(turned: string) {
  return findingsOf(changed(achieved(`alignment rotation ${turned} external`)), "rotation-off");
}

// line: ROT-1: Cain et al., JBJS Am 2020, doi 10.2106/jbjs.19.00731: right tibiae 4 deg more external (printed);
// Puloski et al., J Orthop Trauma 2004: malrotation above 10 deg (printed); the differences (computed)
describe("ROT-1: left, intact, 37 deg; right, injured", () => {
  test.each([
    ["measured 52, raw", "52 deg - 37 deg", "15 deg"],
    ["measured 52, corrected", "52 deg - (37 deg + 4 deg)", "11 deg"],
    ["measured 50, raw", "50 deg - 37 deg", "13 deg"],
  ])("%s: %s is %s and found", (_, turned, difference) => {
    const [first, ...more] = found(turned);
    expect(first).toMatchObject({ grade: "warning" });
    expect(first?.message).toContain(`turned ${difference} external`);
    expect(more).toEqual([]);
  });

  test.each([
    ["measured 50, corrected: 9 deg", "50 deg - (37 deg + 4 deg)"],
    ["10 deg itself keeps the limit", "10 deg"],
  ])("%s is not", (_, turned) => {
    expect(found(turned)).toEqual([]);
  });

  test("the correction is left to the writer, and the rule names it", () => {
    expect(rotationOff.basis.text).toContain("4 deg more external");
  });
});

// line: FRQ-1: Cain et al. 2020: 55 of 154 (36 %) raw, 45 of 154 (29 %) corrected; Freedman & Johnson, Clin Orthop
// 1995;315:25: 16 of 133 (12 %) (printed)
describe("FRQ-1: the shares that the rules name", () => {
  test("36 % raw and 29 % corrected are 55 and 45 of the series' 154", () => {
    expect([printPercent(55 / 154), printPercent(45 / 154)]).toEqual(["36 %", "29 %"]);
    expect(rotationOff.population).toContain("154 tibiae");
    expect(rotationOff.population).toContain(`${printPercent(55 / 154)} of them raw`);
    expect(rotationOff.population).toContain(`${printPercent(45 / 154)} corrected`);
  });

  test("16 of 133 are the 12 % of theirs", () => {
    expect(printPercent(16 / 133)).toBe("12 %");
    expect(alignmentOff.population).toContain("133 tibial nailings, 16 of them malaligned");
  });
});
