/**
 * The entry point's limit against the anatomy it comes from. Each check names its source and how far it can be trusted.
 */
import { describe, expect, test } from "vitest";
import { limitTable } from "../../server/findings/limit-table.ts";
import type { Change } from "../findings/clinical/table.ts";
import { changed, findingsOf } from "../findings/judged.ts";

const from = (text: string): Change => ["from-midline 8 mm lateral", `from-midline ${text}`];

// line: Tornetta 1999: 9.1 ± 5 mm lateral to the midline (printed); its ends, one standard deviation to either side (computed)
describe("ENT-1: 9.1 mm less and more 5 mm", () => {
  test("the limit is 4.1 mm to 14.1 mm", () => {
    expect(limitTable.find((entry) => entry.name === "entry-from-midline")).toMatchObject({
      least: 4.1,
      most: 14.1,
      unit: "mm",
    });
    expect(9.1 - 5).toBeCloseTo(4.1, 10);
    expect(9.1 + 5).toBeCloseTo(14.1, 10);
  });

  test.each([
    ["9.1 mm lateral", []],
    ["4.1 mm lateral", []],
    ["14.1 mm lateral", []],
    ["0 mm lateral", ["warning"]],
    ["3 mm medial", ["warning"]],
    ["14.2 mm lateral", ["warning"]],
    ["4.4 mm lateral", []],
  ] as const)("%s", (distance, grades) => {
    expect(findingsOf(changed(from(distance)), "entry-off").map((each) => each.grade)).toEqual(grades);
  });

  test("medial and lateral are not taken for each other", () => {
    expect(findingsOf(changed(from("8 mm medial")), "entry-off")).toHaveLength(1);
    expect(findingsOf(changed(from("8 mm lateral")), "entry-off")).toHaveLength(0);
  });
});
