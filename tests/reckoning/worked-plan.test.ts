/**
 * The worked example, row by row: an invented plan that was checked by hand. The numbers are compared at the digits of that table, and
 * the texts with the printing rule.
 */
import { describe, expect, test } from "vitest";
import { halfWidthIn, valueIn } from "../../server/quantity/arithmetic.ts";
import { print } from "../../server/quantity/print.ts";
import { answerOf, reckon } from "../../server/reckoning/reckon.ts";
import type { Reckonings } from "../../server/reckoning/reckoning.ts";
import { planFrom } from "./plan-by-hand.ts";
import { worked } from "./worked-numbers.ts";

// Reckoned in each test anew, so that it is known which lines each one runs.
const reckoned = (): Reckonings => reckon(planFrom(worked));

/** Rounded to as many decimals as the table shows. */
function rounded(number: number, decimals: number): string {
  return number.toFixed(decimals);
}

describe("the worked plan", () => {
  // id, unit, value and half-width (k = 2) as the table prints them, text by the printing rule
  const rows: readonly (readonly [string, string, string, string, string])[] = [
    ["magnification.ap", "1", "1.15", "0.008", "1.1500 ± 0.0080"],
    ["level.scar", "mm", "361.74", "3.06", "361.7 mm ± 3.1 mm"],
    ["level.plafond", "mm", "375.65", "3.14", "375.7 mm ± 3.1 mm"],
    ["level.fracture.centre", "mm", "191.30", "1.33", "191.3 mm ± 1.3 mm"],
    ["canal.isthmus", "mm", "10.52", "0.27", "10.52 mm ± 0.27 mm"],
    ["canal.isthmusLevel", "mm", "205", "0", "205 mm"],
    ["length.available", "mm", "353.74", "3.06", "353.7 mm ± 3.1 mm"],
    ["length.longest", "mm", "345", "0", "345 mm"],
    ["length.margin", "mm", "8.74", "3.06", "8.7 mm ± 3.1 mm"],
    ["length.next", "mm", "360", "0", "360 mm"],
    ["length.nextMargin", "mm", "6.26", "3.06", "6.3 mm ± 3.1 mm"],
    ["nail.top", "mm", "8", "0", "8 mm"],
    ["nail.tip", "mm", "353", "0", "353 mm"],
    ["tip.toScar", "mm", "8.74", "3.06", "8.7 mm ± 3.1 mm"],
    ["tip.toPlafond", "mm", "22.65", "3.14", "22.7 mm ± 3.1 mm"],
    ["ream.final", "mm", "11.0", "0", "11 mm"],
    ["ream.over", "mm", "1.0", "0", "1 mm"],
    ["fit.ratio", "1", "0.909", "0", "0.909"],
    ["hole.P2.level", "mm", "36", "0", "36 mm"],
    ["hole.P1.level", "mm", "48", "0", "48 mm"],
    ["hole.D2.level", "mm", "327", "0", "327 mm"],
    ["hole.D1.level", "mm", "341", "0", "341 mm"],
    ["compression.amount", "mm", "2.5", "0", "2.5 mm"],
    ["compression.left", "mm", "3.5", "0", "3.5 mm"],
    ["compression.gapLeft", "mm", "0.5", "1.0", "0.5 mm ± 1.0 mm"],
    ["nail.topAfter", "mm", "5.5", "0", "5.5 mm"],
    ["cap.top", "mm", "0.5", "0", "0.5 mm"],
    ["span.working", "mm", "279", "0", "279 mm"],
    ["nail.bending", "N·m²", "50.62", "0", "50.62 N·m²"],
    ["compartment.gradient", "mmHg", "44", "0", "44 mmHg"],
  ];

  test.each(rows)("%s", (id, unit, value, plusMinus, text) => {
    const answer = answerOf(reckoned(), id);
    if (answer.kind === "unknown") {
      throw new Error(answer.because);
    }
    const decimalsOf = (number: string): number => number.split(".")[1]?.length ?? 0;
    expect(rounded(valueIn(answer, unit), decimalsOf(value))).toBe(value);
    expect(rounded(halfWidthIn(answer, unit), decimalsOf(plusMinus))).toBe(plusMinus);
    expect(print(answer, unit)).toBe(text);
    expect(reckoned().byId.get(id)?.unit).toBe(unit);
  });

  test("the words", () => {
    const reckonings = reckoned();
    expect(reckonings.byId.get("segment")?.answer).toEqual({ kind: "word", word: "shaft" });
    expect(reckonings.byId.get("ream.heads")?.answer).toEqual({ kind: "word", word: "8.5, 9, 9.5, 10, 10.5, 11 mm" });
    expect(reckonings.byId.get("canal.isthmus")?.remark).toBe("depth of the canal at 205 mm");
  });

  test("formulas with their numbers", () => {
    const reckonings = reckoned();
    const filled = (id: string): string => `${reckonings.byId.get(id)?.formula} = ${reckonings.byId.get(id)?.filled}`;
    expect(filled("hole.D1.level")).toBe("sunk + length - tip = 8 mm + 345 mm - 12 mm");
    expect(filled("compression.amount")).toBe("turns × pitch = 2 turns × 1.25 mm/turn");
    expect(filled("nail.topAfter")).toBe("sunk - compression = 8 mm - 2.5 mm");
    expect(filled("magnification.ap")).toBe("seen / marker = 28.75 mm / 25 mm");
    expect(filled("level.scar")).toBe("scar on ap / magnification of ap = 416 mm / 1.15");
    expect(filled("level.fracture.from")).toBe("near edge on ap / magnification of ap = 208 mm / 1.15");
    expect(filled("level.fracture.centre")).toBe("(fracture from + fracture to) / 2 = (180.9 mm + 201.7 mm) / 2");
    expect(filled("canal.isthmus")).toBe(
      "min(all widths and depths) = min(27 mm / 1.15, 24 mm / 1.16, 12.4 mm / 1.15, 12.2 mm / 1.16, 24 mm / 1.15, 21 mm / 1.16)",
    );
    expect(filled("hole.D1.path")).toBe("width = 36 mm / 1.15");
  });

  test("every id once, in the order of the list, each with a place", () => {
    const reckonings = reckoned();
    const ids = reckonings.list.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect([...reckonings.byId.keys()].sort()).toEqual([...ids].sort());
    expect(reckonings.list.filter(({ from }) => from.length === 0).map(({ id }) => id)).toEqual([]);
    expect(ids.slice(0, 3)).toEqual(["magnification.ap", "magnification.lateral", "level.scar"]);
  });
});
