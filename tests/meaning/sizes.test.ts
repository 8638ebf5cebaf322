/** Ranges written out: no step is lost or won to rounding, and what leads nowhere is refused with what was expected. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mostSizes, writeOut } from "../../server/meaning/sizes.ts";
import { exact, measured, unknown, valueIn } from "../../server/quantity/arithmetic.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";

function mm(value: number): Quantity {
  return exact(value, "mm", `${value}`);
}

function written(from: Quantity, to: Quantity, by: Quantity | undefined, unit = "mm"): readonly (number | string)[] {
  const out = writeOut(from, to, by);
  if (out.kind === "refused") {
    return [`${out.found}, not ${out.expected}`];
  }
  return out.sizes.map((size) => (size.kind === "known" ? valueIn(size, unit) : size.because));
}

describe("a range", () => {
  test("is written out to its end", () => {
    expect(written(mm(8.5), mm(11), mm(0.5))).toEqual([8.5, 9, 9.5, 10, 10.5, 11]);
    expect(written(mm(0.1), mm(0.7), mm(0.1))).toEqual([0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7]);
    expect(written(mm(5), mm(5), mm(1))).toEqual([5]);
  });

  test("keeps what fits when the step misses the end", () => {
    expect(written(mm(8), mm(9.9), mm(0.5))).toEqual([8, 8.5, 9, 9.5]);
    expect(written(mm(8), mm(8.2), mm(0.5))).toEqual([8]);
  });

  test("runs down with a step below 0", () => {
    expect(written(mm(11), mm(10), mm(-0.5))).toEqual([11, 10.5, 10]);
  });

  test("keeps the unit and the digits of its start", () => {
    const out = writeOut(exact(1.2, "cm", "1.2"), exact(15, "mm", "15"), exact(1, "mm", "1"));
    const texts = out.kind === "sizes" ? out.sizes.map((size) => (size.kind === "known" ? size.typed : undefined)) : [];
    expect(texts).toEqual(["1.2", "1.3", "1.4", "1.5"].map((text) => ({ text, unit: "cm" })));
  });

  test.each([
    ["a step of 0", mm(8), mm(9), mm(0), "a step of 0, not a step above 0"],
    ["the wrong direction", mm(9), mm(8), mm(0.5), "a step away from the end, not a step that leads to the end"],
    [
      "another dimension",
      mm(8),
      mm(9),
      exact(1, "deg"),
      "a range of different dimensions, not one dimension throughout",
    ],
    ["too many", mm(0), mm(1000), mm(0.5), `too many sizes, not at most ${mostSizes} sizes`],
    ["one too many", mm(0), mm(mostSizes), mm(1), `too many sizes, not at most ${mostSizes} sizes`],
    ["an unknown end", mm(8), unknown("no end"), mm(1), "no end"],
    ["an unknown step", mm(8), mm(9), unknown("no step"), "no step"],
    ["no step", mm(8), mm(9), undefined, "the range has no step"],
  ])("with %s is not written out", (_, from, to, by, told) => {
    expect(written(from, to, by)).toEqual([told]);
  });

  test("may be exactly as long as the longest", () => {
    expect(written(mm(1), mm(mostSizes), mm(1))).toHaveLength(mostSizes);
  });

  test("carries the uncertainty of its ends", () => {
    const from = measured(8, 0.2, "mm", { id: "here", label: "first" });
    const out = writeOut(from, mm(9), mm(0.5));
    const counts =
      out.kind === "sizes" ? out.sizes.map((size) => (size.kind === "known" ? size.influences.length : 0)) : [];
    expect(counts).toEqual([1, 1, 1]);
  });

  test("of tenths has every tenth, each the nearest number to what would be typed", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 5000 }),
        fc.integer({ min: 1, max: 90 }),
        fc.integer({ min: 0, max: 200 }),
        (start, step, count) => {
          const [from, by, to] = [start, step, start + step * count].map((tenths) => mm(tenths / 10));
          const expected = Array.from({ length: count + 1 }, (_, at) => (start + step * at) / 10);
          expect(written(from ?? mm(0), to ?? mm(0), by)).toEqual(expected);
        },
      ),
    );
  });
});
