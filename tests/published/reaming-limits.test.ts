/**
 * How far and in what steps a canal is reamed, against the published figures. Each check names its source and how far
 * it can be trusted.
 */
import { describe, expect, test } from "vitest";
import { limitTable } from "../../server/findings/limit-table.ts";
import { isthmus, nail, reamed } from "../findings/clinical/changes.ts";
import type { Change } from "../findings/clinical/table.ts";
import { changed, findingsOf } from "../findings/judged.ts";

function found(slug: string, ...change: readonly Change[]): readonly string[] {
  return findingsOf(changed(...change), slug).map((each) => each.grade);
}

// line: REAM-1: common practice, no single source (computed)
test("REAM-1: nail 10 mm, tibia 1.5 mm over: 11.5 mm is the last head that keeps the limit", () => {
  expect(found("reaming-overshoot", ...reamed("8.5 mm to 11.5 mm by 0.5 mm"))).toEqual([]);
  expect(found("reaming-overshoot", ...reamed("8.5 mm to 12 mm by 0.5 mm"))).toEqual(["warning"]);
});

// line: REAM-2: common practice, no single source
test("REAM-2: nail 10 mm, one or two steps of 0.5 mm over: 10.5 mm and 11 mm keep both limits", () => {
  for (const last of ["10.5 mm", "11 mm"]) {
    expect(found("reaming-overshoot", ...reamed(`8.5 mm to ${last} by 0.5 mm`)), last).toEqual([]);
    expect(found("reaming-undershoot", ...reamed(`8.5 mm to ${last} by 0.5 mm`)), last).toEqual([]);
  }
});

// line: REAM-3: Baumgart 1998: steps of at most 0.5 mm (printed)
describe("REAM-3: 9 mm to 11.5 mm", () => {
  test("by 0.5 mm is six heads, and no step is too wide", () => {
    const analysis = changed(...reamed("9 mm to 11.5 mm by 0.5 mm"));
    const answer = analysis.reckonings?.byId.get("ream.heads")?.answer;
    expect(answer).toEqual({ kind: "word", word: "9, 9.5, 10, 10.5, 11, 11.5 mm" });
    expect(findingsOf(analysis, "reaming-step")).toEqual([]);
  });

  test("by 1 mm has steps above 0.5 mm", () => {
    expect(found("reaming-step", ...reamed("9 mm to 11 mm by 1 mm"))).toEqual(["warning"]);
  });

  test("the limit names that source", () => {
    const limit = limitTable.find((entry) => entry.name === "reaming-step");
    expect(limit).toMatchObject({ most: 0.5, unit: "mm", basis: { mark: "printed" } });
    expect(limit?.basis.text).toContain("Baumgart");
  });
});

// line: REAM-4: Clin Orthop Relat Res 2002, reamed tibial nailing: beyond 10 mm in an 8 mm canal hotter (printed)
describe("REAM-4: a canal of 8 mm", () => {
  const canal = isthmus("8 mm", "12 mm");

  test("reamed to 10.5 mm is found", () => {
    expect(found("narrow-canal", ...reamed("8 mm to 10.5 mm by 0.5 mm"), canal)).toEqual(["warning"]);
  });

  test("reamed to 10 mm is not: strictly beyond", () => {
    expect(found("narrow-canal", ...reamed("8 mm to 10 mm by 0.5 mm"), canal, nail("9 mm"))).toEqual([]);
  });
});

// line: REAM-5: Leunig & Hertel 1996; contradicted by Giannoudis 2002 (both printed)
describe("REAM-5: a tourniquet while reaming", () => {
  const tourniquet: Change = ["prepare antibiotic, time-out", "prepare antibiotic, time-out, tourniquet"];

  test.each([
    ["8 mm", ["information"]],
    ["7.5 mm", ["information"]],
    ["11 mm", []],
  ] as const)("a canal of %s", (width, grades) => {
    const plan = [...reamed("8 mm to 10 mm by 0.5 mm"), nail("9 mm"), isthmus(width, "12 mm"), tourniquet];
    expect(found("tourniquet-reaming", ...plan)).toEqual(grades);
  });

  test("the message says that the evidence conflicts", () => {
    const plan = [...reamed("8 mm to 10 mm by 0.5 mm"), nail("9 mm"), isthmus("8 mm", "12 mm"), tourniquet];
    expect(findingsOf(changed(...plan), "tourniquet-reaming")[0]?.message).toContain("conflict");
  });
});
