/**
 * The nail's fit and depth, screws in a fragment and alignment, against the published figures. Each check names
 * its source and how far it can be trusted.
 */
import { describe, expect, test } from "vitest";
import {
  achieved,
  cap,
  compress,
  gap,
  isthmus,
  nail,
  nailLength,
  noFallback,
  reamed,
  sunk,
  without,
} from "../findings/clinical/changes.ts";
import type { Change } from "../findings/clinical/table.ts";
import { changed, findingsOf } from "../findings/judged.ts";

function found(slug: string, ...change: readonly Change[]): readonly string[] {
  return findingsOf(changed(...change), slug).map((each) => each.grade);
}

// line: PRM-1: Coll Antropol 2011: no pain in front of the knee more than 6.0 mm below the plateau (printed). The same series'
// distance from the tuberosity, 2.6 mm, is not held: how far in front the nail's end lies is not part of a plan.
describe("PRM-1: the driving end below the plateau", () => {
  test.each([
    ["6.0 mm", "8.5 mm", ["information"]],
    ["6.1 mm", "8.6 mm", []],
  ])("%s, sunk %s before 2.5 mm of compression", (_below, depth, grades) => {
    const joint: Change = ["    landmark plafond", "    landmark knee-joint 0 mm\n    landmark plafond"];
    expect(found("nail-near-joint", joint, sunk(depth))).toEqual(grades);
  });
});

// line: RATIO-1: "size matters", J Orthop Trauma 2016: 0.80 to 0.99 (printed)
describe("RATIO-1: nail over canal", () => {
  test.each([
    ["10 in 11.5 is 0.87", [...reamed("8.5 mm to 11.5 mm by 0.5 mm"), isthmus("10.6 mm", "11 mm")], []],
    [
      "9 in 12 is 0.75",
      [...reamed("8.5 mm to 10 mm by 0.5 mm"), nail("9 mm"), isthmus("12 mm", "12.5 mm")],
      ["warning"],
    ],
    ["10 in 12.5 is 0.80", [noFallback, isthmus("12.5 mm", "13 mm")], []],
    [
      "10 in 10, unreamed, is 1.00",
      [noFallback, ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    unreamed\n"], isthmus("10 mm", "12 mm")],
      ["warning"],
    ],
  ] as const)("%s", (_, change, grades) => {
    expect(found("fit-ratio", ...change)).toEqual(grades);
  });
});

// line: RATIO-2: femur: below 70 % exchange nailing, J Orthop Trauma 2018; no effect found, BMC 2022 (printed)
describe("RATIO-2: nail over canal of a femur", () => {
  const femur: Change = ["    bone tibia\n", "    bone femur\n"];

  test.each([
    ["10 in 14.3 is 0.699", "10 mm", "14.3 mm", ["information"]],
    ["10.5 in 15 is 0.70", "10.5 mm", "15 mm", []],
    ["10 in 13 is 0.77, too little for a tibia alone", "10 mm", "13 mm", []],
  ] as const)("%s", (_, diameter, canal, grades) => {
    expect(found("fit-ratio", noFallback, femur, nail(diameter), isthmus(canal, "18 mm"))).toEqual(grades);
  });

  test("the same 0.77 in a tibia is found", () => {
    expect(found("fit-ratio", noFallback, isthmus("13 mm", "18 mm"))).toEqual(["warning"]);
  });
});

// line: TRAV-1: travel budget, geometry (computed)
describe("TRAV-1: buried 5 mm", () => {
  const dynamise: Change = ["    review at 2", "    dynamise at 10 weeks, remove P1\n    review at 2"];
  const plan: readonly Change[] = [sunk("5 mm"), compress("3 mm"), gap("4 mm"), cap("none")];

  test("compression of 3 mm leaves 2 mm", () => {
    expect(found("nail-proud", ...plan)).toEqual([]);
  });

  test("compression and dynamisation of 8 mm together stand 3 mm proud", () => {
    const far: Change = ["slot 6 mm, takes peg", "slot 8 mm, takes peg"];
    const [short] = findingsOf(changed(...plan, dynamise, far), "overinsertion-short");
    expect(short?.message).toContain("sunk 5 mm, but it will be drawn back 8 mm");
  });

  test("compression of 8 mm alone stands 3 mm proud", () => {
    const longer: Change = ["compression travel 6 mm", "compression travel 9 mm"];
    const [proud] = findingsOf(changed(sunk("5 mm"), compress("8 mm"), gap("9 mm"), cap("none"), longer), "nail-proud");
    expect(proud).toMatchObject({ grade: "error" });
    expect(proud?.message).toContain("3 mm proud");
  });
});

// line: CAP-1: buried depth less the cap, geometry (computed)
describe("CAP-1: buried 12 mm", () => {
  const plan: readonly Change[] = [sunk("12 mm"), without("compress"), nailLength("330 mm")];

  test("a cap of 10 mm leaves 2 mm", () => {
    expect(found("cap-proud", ...plan, cap("10 mm"))).toEqual([]);
  });

  test("a cap of 15 mm stands 3 mm proud", () => {
    const [proud] = findingsOf(changed(...plan, cap("15 mm")), "cap-proud");
    expect(proud).toMatchObject({ grade: "error" });
    expect(proud?.message).toContain("The cap stands 3 mm proud");
  });
});

// line: DST-1: Kneifel & Buckley, Injury 1996;27:271: one distal screw failed in 13 of 22, two in 1 of 20 (printed)
test("DST-1: one distal screw is found, two are not", () => {
  const one: readonly Change[] = [without("d1"), ["take D1, D2, P2", "take D2, P2"]];
  expect(found("screws-few", ...one)).toEqual(["warning"]);
  expect(found("screws-few")).toEqual([]);
});

// line: ANG-3 and ANG-6: Paley 2002 oblique-plane formula (computed); counted per plane by Freedman & Johnson 1995
// (printed)
describe("ANG-3 and ANG-6: two views and the true angle", () => {
  const strict: Change = ['  limit sagittal up-to 10 deg, because "our alignment profile"\n', ""];

  test("5 and 5 deg pass in each plane, and the true 7.05 deg is named", () => {
    const [remark] = findingsOf(
      changed(strict, achieved("alignment coronal 5 deg varus, sagittal 5 deg procurvatum")),
      "alignment-off",
    );
    expect(remark).toMatchObject({ grade: "information" });
    expect(remark?.message).toMatch(/Each plane keeps its limit and is judged by it.*7\.1 deg/);
  });

  test("4 and 3 deg pass, and so does the true 4.994 deg", () => {
    expect(
      found("alignment-off", strict, achieved("alignment coronal 4 deg varus, sagittal 3 deg procurvatum")),
    ).toEqual([]);
  });

  // line: ANG-3: 5 deg in any plane (Freedman & Johnson 1995), 10 deg sagittal (Anneberg & Brink 2018): both printed,
  // they differ
  test("the two profiles differ in the sagittal plane", () => {
    const bent = achieved("alignment coronal 0 deg varus, sagittal 8 deg procurvatum");
    expect(found("alignment-off", strict, bent)).toEqual(["warning"]);
    expect(found("alignment-off", bent)).toEqual([]);
  });
});
