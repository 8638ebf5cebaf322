/**
 * Reamer heads, their steps, and how nail, head and canal fill one another, against published and customary figures.
 */
import { expect, test } from "vitest";
import { numberOf, wordOf, workedWith } from "../reckoning/answers-of.ts";
import { of, range } from "../reckoning/worked-numbers.ts";

// line: REAM-3: Baumgart et al., Injury 1998;29 Suppl 2:B11: steps of at most 0.5 mm (printed limit; the steps
// computed)
test("REAM-3: 9.0 to 11.5 mm by 0.5 mm are six heads with steps of 0.5 mm", () => {
  const plan = workedWith({ heads: range(9, 11.5, 0.5) });
  expect(wordOf(plan, "ream.heads")).toBe("9, 9.5, 10, 10.5, 11, 11.5 mm");
  expect(numberOf(plan, "ream.step")).toBe(0.5);
  expect(numberOf(plan, "ream.final")).toBe(11.5);
});

test("REAM-3: by 1.0 mm the widest step is 1.0 mm, above the printed 0.5 mm", () => {
  expect(numberOf(workedWith({ heads: [9, 10, 11] }), "ream.step")).toBe(1);
  expect(numberOf(workedWith({ heads: [9, 9.5, 11, 11.5] }), "ream.step")).toBe(1.5);
});

// line: RATIO-1: nail to canal ratio, J Orthop Trauma 2016, 78 tibiae: 0.80 to 0.99 (printed); the ratios (computed).
test.each([
  [10, 11.5, "0.8696"],
  [9, 12, "0.7500"],
  [10, 10, "1.0000"],
  [8, 10, "0.8000"],
])("RATIO-1: nail %d mm in a canal reamed to %d mm: %s", (diameter, head, ratio) => {
  const canals = [{ level: of(205), width: of(9), depth: of(8.5) }];
  expect(numberOf(workedWith({ diameter, heads: [head], canals }), "fit.ratio", "1").toFixed(4)).toBe(ratio);
});

// line: PLAY: geometry (computed)
test("PLAY: a 10 mm nail after reaming to 11.5 mm has 0.75 mm of play on each side", () => {
  expect(numberOf(workedWith({ heads: [11, 11.5] }), "fit.play")).toBeCloseTo(0.75, 12);
});

// line: PB-4: ISRN Orthop 2014, 542623: canal 11.9 mm at the isthmus, 22.9 mm at the fracture (printed); the play
// (computed)
test("PB-4: a 10 mm nail in a canal of 22.9 mm at the fracture has 6.45 mm of play on each side", () => {
  const inTrueSize = { ap: { marker: of(25), seen: of(25) }, lateral: { marker: of(25), seen: of(25) } };
  const canals = [
    { level: of(150), width: of(11.9), depth: of(11.9) },
    { level: of(300), width: of(22.9), depth: of(20) },
  ];
  const plan = workedWith({ ...inTrueSize, canals, fracture: { from: of(300), to: of(310) }, heads: [11] });
  expect(numberOf(plan, "fit.play.proximal")).toBeCloseTo(6.45, 12);
});
