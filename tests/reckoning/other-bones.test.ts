/**
 * What is reckoned of a femur and a humerus: the same levels along one axis, a far joint that goes by its own name, and ends of the
 * bone that are bounded each in its own way.
 */
import { describe, expect, test } from "vitest";
import { reckon } from "../../server/reckoning/reckon.ts";
import { numberOf, wordOf, workedWith } from "./answers-of.ts";
import { of } from "./worked-numbers.ts";

const inTrueSize = { ap: { marker: of(25), seen: of(25) }, lateral: { marker: of(25), seen: of(25) } };

/** A fracture 4 mm high with this centre. */
function fractureAt(centre: number, half = 0) {
  return { fracture: { from: of(centre - 2, half), to: of(centre + 2, half) } };
}

// Rockwood and Green 10e, fig. 5-7 (printed): a square at the distal end, the lower edge of the lesser trochanter at the proximal end
// of the femur; a centre on the edge counts as in the end, our own reading.
describe("the segment of a femur", () => {
  const bone = { bone: "femur", ...inTrueSize, lesserTrochanter: of(65), plafond: of(440), distalSquare: of(80) };

  test.each([
    [64, "proximal"],
    [65, "proximal"],
    [66, "shaft"],
    [359, "shaft"],
    [360, "distal"],
    [361, "distal"],
  ])("centre at %d mm: %s", (centre, word) => {
    expect(wordOf(workedWith({ ...bone, ...fractureAt(centre) }), "segment")).toBe(word);
  });

  test("is not told by a proximal square", () => {
    const [narrow, wide] = [40, 200].map((side) =>
      wordOf(workedWith({ ...bone, proximalSquare: of(side), ...fractureAt(100) }), "segment"),
    );
    expect([narrow, wide]).toEqual(["shaft", "shaft"]);
  });

  test("by the trochanter, uncertain", () => {
    const plan = workedWith({ ...bone, lesserTrochanter: of(65, 4), ...fractureAt(66) });
    expect(reckon(plan).byId.get("segment")?.remark).toBe(
      "edge of the lesser trochanter at 65.0 mm; probability that the centre lies in that end: 31 %",
    );
  });

  test("distal is told without a trochanter", () => {
    const plan = workedWith({ ...bone, lesserTrochanter: undefined, ...fractureAt(361) });
    expect(wordOf(plan, "segment")).toBe("distal");
  });

  test("its formula", () => {
    const segment = reckon(workedWith({ ...bone, ...fractureAt(100) })).byId.get("segment");
    expect(segment?.formula).toBe(
      "proximal if centre ≤ lesser-trochanter; distal if centre ≥ joint - distal square; else shaft",
    );
    expect(segment?.filled).toBe("proximal if 100 mm ≤ 65 mm; distal if 100 mm ≥ 440 mm - 80 mm; else shaft");
  });
});

describe("the segment of a humerus", () => {
  const bone = { bone: "humerus", ...inTrueSize, plafond: of(300), distalSquare: of(60), proximalSquare: of(55) };

  test.each([
    [20, "not a word"],
    [239, "not a word"],
    [240, "distal"],
    [241, "distal"],
  ])("centre at %d mm: %s", (centre, word) => {
    expect(wordOf(workedWith({ ...bone, ...fractureAt(centre) }), "segment")).toContain(word);
  });
});

test("the far joint goes by the name the plan gives it, and its room keeps one id", () => {
  const femur = workedWith({ ...inTrueSize, bone: "femur", plafond: of(440), sunk: of(6), length: 400 });
  const { byId } = reckon(femur);
  expect(byId.has("level.plafond")).toBe(false);
  expect(numberOf(femur, "level.joint")).toBe(440);
  expect(numberOf(femur, "tip.toPlafond")).toBe(34);
  expect(byId.get("tip.toPlafond")).toMatchObject({
    label: "tip of the nail to the far joint",
    formula: "joint - tip",
  });
  expect(reckon(workedWith({})).byId.get("tip.toPlafond")).toMatchObject({
    label: "tip of the nail to the plafond",
    formula: "plafond - tip",
  });
});

test("the source of a nail to canal ratio is of the same bone", () => {
  const [tibia, femur, humerus] = ["tibia", "femur", "humerus"].map(
    (bone) => reckon(workedWith({ bone })).byId.get("fit.ratio")?.basis,
  );
  expect(tibia).toMatchObject({ mark: "printed", text: expect.stringContaining("78 tibiae") });
  expect(femur).toMatchObject({ mark: "printed", text: expect.stringContaining("femur") });
  expect(humerus).toMatchObject({ mark: "computed", text: expect.stringContaining("no series of the humerus") });
});

test("a partial load is the load of an arm", () => {
  expect(numberOf(workedWith({ bone: "humerus", load: of(2) }), "gap.motion.most")).toBeGreaterThan(0);
});
