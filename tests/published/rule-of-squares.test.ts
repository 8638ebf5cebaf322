/**
 * The segment of a tibial fracture by the rule of squares (Heim; Müller): the end segment is a square as high as the
 * end of the bone is wide. The sizes are invented.
 */
import { expect, test } from "vitest";
import { wordOf, workedWith } from "../reckoning/answers-of.ts";
import { of } from "../reckoning/worked-numbers.ts";

const inTrueSize = { ap: { marker: of(25), seen: of(25) } };

/** A fracture 4 mm high with this centre, on an image in true size. */
function fractureAt(centre: number) {
  return { fracture: { from: of(centre - 2), to: of(centre + 2) } };
}

// line: AO-1: rule of squares, Rockwood and Green 10e, fig. 5-7 (printed rule; computed)
test.each([
  [60, "shaft"],
  [45, "distal"],
  // On the edge itself the sources say nothing; it counts as the end segment here, and the basis says so.
  [52, "distal"],
])("AO-1: plafond 52 mm wide, centre %d mm above it: %s", (above, word) => {
  const plan = workedWith({ ...inTrueSize, plafond: of(380), distalSquare: of(52), ...fractureAt(380 - above) });
  expect(wordOf(plan, "segment")).toBe(word);
});

// line: AO-2: rule of squares, Rockwood and Green 10e, fig. 5-7 (printed rule; computed)
test.each([
  [70, "proximal"],
  [80, "shaft"],
  [76, "proximal"],
])("AO-2: plateau 76 mm wide, centre %d mm below it: %s", (below, word) => {
  const plan = workedWith({ ...inTrueSize, proximalSquare: of(76), ...fractureAt(below) });
  expect(wordOf(plan, "segment")).toBe(word);
});

test("AO-2: a knee joint above the entry point moves the proximal square with it", () => {
  const change = { ...inTrueSize, kneeJoint: of(-12), proximalSquare: of(76) };
  expect(wordOf(workedWith({ ...change, ...fractureAt(64) }), "segment")).toBe("proximal");
  expect(wordOf(workedWith({ ...change, ...fractureAt(65) }), "segment")).toBe("shaft");
});
