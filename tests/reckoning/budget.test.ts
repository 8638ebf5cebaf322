/** What an uncertainty is made of, and what would settle a decision: each figure worked out beside it. */
import { describe, expect, test } from "vitest";
import { add, exact, known, measured, multiply, subtract, valueIn } from "../../server/quantity/arithmetic.ts";
import { probabilityAbove, probabilityBelow } from "../../server/quantity/probability.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { dimensionOf } from "../../server/quantity/units.ts";
import { budgetOf, needOf } from "../../server/reckoning/budget.ts";
import { because, numberIn, sure } from "../quantity/sure.ts";

function read(id: string, value: number, halfWidth: number, unit = "mm"): Quantity {
  return measured(value, halfWidth, unit, { id, label: `the ${id}` });
}

describe("a budget", () => {
  // u² = (1.5 mm)² + (2 mm)² = 6.25 mm², so ± 5 mm of which 36 % and 64 %; alone the readings give ± 3 mm and ± 4 mm.
  const sum = sure(add(read("sunk", 8, 3), read("scar", 36, 0.4, "cm")));

  test("names the readings, the largest part first, each in its own unit", () => {
    const lines = budgetOf(sum, "mm");
    expect(lines.map(({ label, unit }) => [label, unit])).toEqual([
      ["the scar", "cm"],
      ["the sunk", "mm"],
    ]);
    expect(lines[0]?.share).toBeCloseTo(0.64, 12);
    expect(lines[1]?.share).toBeCloseTo(0.36, 12);
    expect(lines.map(({ halfWidth, unit }) => numberIn(halfWidth, unit))).toEqual([
      expect.closeTo(0.4, 12),
      expect.closeTo(3, 12),
    ]);
    expect(lines.map(({ contribution }) => numberIn(contribution, "mm"))).toEqual([
      expect.closeTo(4, 12),
      expect.closeTo(3, 12),
    ]);
  });

  test("in another unit the contributions are other numbers, the readings are not", () => {
    const [line] = budgetOf(sum, "cm");
    expect(line === undefined ? 0 : numberIn(line.contribution, "cm")).toBeCloseTo(0.4, 12);
    expect(line === undefined ? 0 : numberIn(line.halfWidth, "cm")).toBeCloseTo(0.4, 12);
  });

  test("a reading's own ± is not what it contributes: a factor of 3 stands between them", () => {
    const [line] = budgetOf(sure(multiply(read("seen", 10, 0.2), exact(3, "1"))), "mm");
    expect(line?.share).toBe(1);
    expect(line === undefined ? 0 : numberIn(line.halfWidth, "mm")).toBeCloseTo(0.2, 12);
    expect(line === undefined ? 0 : numberIn(line.contribution, "mm")).toBeCloseTo(0.6, 12);
  });

  test("of an exact value there is none", () => {
    expect(budgetOf(sure(exact(5, "mm")), "mm")).toEqual([]);
  });
});

describe("what would settle a decision", () => {
  const limit = sure(exact(40, "mm"));
  const open = sure(add(read("sunk", 8, 3), read("scar", 3.5, 0.4, "cm")));

  test("the leading reading, and how well it would have to be known", () => {
    // 43 mm against 40 mm: u may be 3 / 1.6449 = 1.8239 mm (95 % of a normal distribution lie below 1.6449 u, Abramowitz and
    // Stegun, Table 26.5, from memory). The other reading has 1.5 mm, so √(1.8239² - 1.5²) = 1.0375 mm are left: ± 2.0751 mm.
    const need = needOf(open, limit);
    expect(need?.label).toBe("the scar");
    expect(need?.unit).toBe("cm");
    expect(need === undefined ? 0 : numberIn(need.now, "cm")).toBeCloseTo(0.4, 12);
    expect(need?.needed === undefined ? 0 : numberIn(need.needed, "cm")).toBeCloseTo(0.207_51, 5);
  });

  test("known so well, the decision has its 95 %, above a limit as below it", () => {
    for (const at of [40, 46]) {
      const bound = sure(exact(at, "mm"));
      const needed = needOf(open, bound)?.needed;
      const better = sure(
        add(read("sunk", 8, 3), read("scar", 3.5, needed === undefined ? 1 : numberIn(needed, "cm"), "cm")),
      );
      const probability = at < 43 ? probabilityAbove(better, bound) : probabilityBelow(better, bound);
      expect(probability).toBeCloseTo(0.95, 10);
    }
  });

  test("a limit that is uncertain itself may be what leads", () => {
    const soft = sure(read("margin", 40, 6));
    const need = needOf(sure(read("scar", 43, 1)), soft);
    expect(need?.label).toBe("the margin");
    expect(need === undefined ? 0 : numberIn(need.now, "mm")).toBeCloseTo(6, 12);
  });

  test("no figure where even an exact reading would leave it open", () => {
    // Without the scar's ± the sunk's u of 1.5 mm alone leaves 2.4 mm undecided: 2.4 / 1.5 = 1.6 < 1.6449.
    const need = needOf(open, sure(exact(40.6, "mm")));
    expect([need?.label, need?.needed]).toEqual(["the scar", undefined]);
  });

  test("nothing to settle where one side has 95 %", () => {
    // u is 2.5 mm: 4.2 mm are 1.68 u, 4.0 mm are 1.6 u.
    expect(needOf(open, sure(exact(38.8, "mm")))).toBeUndefined();
    expect(needOf(open, sure(exact(39, "mm")))).toBeDefined();
    expect(needOf(sure(exact(1, "mm")), limit)).toBeUndefined();
    expect(() => needOf(open, sure(exact(1, "deg")))).toThrow(RangeError);
  });
});

test("a reading whose unit is not known has no half-width to show", () => {
  const reading = { id: "a", label: "a", standardUncertainty: 1, unit: "inch" };
  const value = sure(known(3, dimensionOf("length"), [{ reading, sensitivity: 1 }]));
  const [line] = budgetOf(value, "mm");
  expect(line === undefined ? "" : because(line.halfWidth)).toBe("there is no unit inch");
  expect(valueIn(sure(subtract(value, value)), "mm")).toBe(0);
});
