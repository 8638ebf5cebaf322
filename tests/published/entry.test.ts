/**
 * The entry point's limit against the anatomy it comes from. Each check names its source and how far it can be trusted.
 */
import { describe, expect, test } from "vitest";
import { limitTable } from "../../server/findings/limit-table.ts";
import { protocol } from "../findings/clinical/changes.ts";
import type { Change } from "../findings/clinical/table.ts";
import { changed, findingsOf } from "../findings/judged.ts";

const from = (text: string): Change => ["from-midline 8 mm lateral", `from-midline ${text}`];

// line: ENT-1: Tornetta et al., J Orthop Trauma 1999;13:247-251: 9.1 ± 5 mm lateral to the midline (printed); its ends,
// one standard deviation to either side (computed)
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

/** A department that takes the zone itself, centre less and more half its width, instead of one standard deviation. */
function gradesIn(zone: string, distance: string): readonly string[] {
  const limit = protocol(`limit entry-from-midline ${zone}, source "Tornetta et al. 1999"`);
  return findingsOf(changed(limit, from(distance)), "entry-off").map((each) => each.grade);
}

// line: ENT-1: Tornetta 1999: zone 22.9 mm wide (from memory; 23 ± 9 printed in an abstract) about 9.1 mm (printed):
// -2.35 to 20.55 mm (computed)
describe("ENT-1: a protocol that takes the whole zone", () => {
  test.each([
    ["9.1 mm lateral", []],
    ["0 mm lateral", []],
    ["2.3 mm medial", []],
    ["3 mm medial", ["warning"]],
    ["20.6 mm lateral", ["warning"]],
  ] as const)("%s", (distance, grades) => {
    expect(gradesIn("9.1 mm - 22.9 mm / 2 to 9.1 mm + 22.9 mm / 2", distance)).toEqual(grades);
  });
});

// line: ENT-2: Tornetta 1999: the zone as narrow as 12.6 mm (from memory): 2.8 to 15.4 mm (computed)
describe("ENT-2: a protocol that takes the narrowest zone", () => {
  test.each([
    ["2.7 mm lateral", ["warning"]],
    ["2.8 mm lateral", []],
    ["15.4 mm lateral", []],
    ["15.5 mm lateral", ["warning"]],
  ] as const)("%s", (distance, grades) => {
    expect(gradesIn("9.1 mm - 12.6 mm / 2 to 9.1 mm + 12.6 mm / 2", distance)).toEqual(grades);
  });
});
