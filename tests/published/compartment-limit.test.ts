/**
 * The compartment's limit against the series it comes from. Each check names its source and how far it can be trusted.
 */
import { describe, expect, test } from "vitest";
import { limitTable } from "../../server/findings/limit-table.ts";
import { printNumber } from "../../server/quantity/print.ts";
import type { Change } from "../findings/clinical/table.ts";
import { changed, findingsOf } from "../findings/judged.ts";

const watch = (text: string): Change => [
  "watch compartment, diastolic 72 mmHg, pressure 28 mmHg",
  `watch compartment, ${text}`,
];

// line: DP-1: McQueen & Court-Brown, JBJS Br 1996;78-B:99-104: fasciotomy below 30 mmHg, 116 patients (printed)
describe("DP-1: strictly below 30 mmHg", () => {
  test.each([
    [70, 45, 25, true],
    [80, 50, 30, false],
    [65, 36, 29, true],
  ])("diastolic %d, pressure %d: %d mmHg", (diastolic, pressure, gradient, below) => {
    const analysis = changed(watch(`diastolic ${diastolic} mmHg, pressure ${pressure} mmHg`));
    const answer = analysis.reckonings?.byId.get("compartment.gradient")?.answer;
    expect(answer).toMatchObject({ kind: "known" });
    const found = findingsOf(analysis, "compartment-low");
    expect(found.map((each) => each.grade)).toEqual(below ? ["warning"] : []);
    if (below) expect(found[0]?.message).toContain(`${gradient} mmHg, below 30 mmHg`);
  });

  test("the limit names that source and its population", () => {
    const limit = limitTable.find((entry) => entry.name === "compartment-gradient");
    expect(limit).toMatchObject({ least: 30, unit: "mmHg", basis: { mark: "printed" } });
    expect(limit?.basis.text).toContain("McQueen");
  });
});

// line: DP-2: McQueen & Court-Brown 1996: an absolute 30 mmHg would have led to 50 of 116 (43 %), 40 mmHg to 27 (23 %),
// 3 (2.6 %) had it (printed)
test.each([
  [50, 0, "43"],
  [27, 0, "23"],
  [3, 1, "2.6"],
])("DP-2: %d of 116 prints as its paper prints it", (count, decimals, printed) => {
  expect(printNumber((100 * count) / 116, decimals)).toBe(printed);
});

// line: DP-3: McQueen & Court-Brown 1996: the rule needs both pressures (printed)
test("DP-3: a pressure without the diastolic is an error", () => {
  const found = findingsOf(changed(watch("pressure 36 mmHg")), "compartment-low");
  expect(found.map((each) => each.grade)).toEqual(["error"]);
  expect(found[0]?.message).toContain("without the diastolic pressure");
});
