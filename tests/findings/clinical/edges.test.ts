/**
 * What faults planted in the samples showed that rules passed over: each case found its rule silent, or at another line than the fault's.
 */
import { expect, test } from "vitest";
import { analyseText, sampleWith } from "../../check.ts";
import { changed, findingsOf, marked } from "../judged.ts";

const humerus = (...changes: readonly (readonly [from: string, to: string])[]) =>
  analyseText(sampleWith("plans/humeral-shaft.isthmus", ...changes));
const femur = (...changes: readonly (readonly [from: string, to: string])[]) =>
  analyseText(sampleWith("plans/femoral-shaft.isthmus", ...changes));

// 270 mm leaves 1.3 mm ± 2.4 mm and is not sure to fit; 260 mm leaves 11.3 mm and is.
test.each([
  ["length 200 mm", 1],
  ["length 250 mm", 1],
  ["length 260 mm", 0],
] as const)("a shorter nail, %s, where a longer one surely fits and the longest perhaps", (length, count) => {
  const analysis = length === "length 260 mm" ? humerus() : humerus(["length 260 mm", length]);
  const found = findingsOf(analysis, "nail-short");
  expect(found.length).toBe(count);
  for (const { message } of found)
    expect(message).toBe("A nail of 260 mm fits too and leaves 11.3 mm ± 2.4 mm of room.");
});

test("a narrow canal is told at the reading that is narrowest", () => {
  const analysis = femur(["width 13 mm ± 0.3 mm on ap", "width 7 mm"]);
  expect(findingsOf(analysis, "narrow-canal").map((each) => marked(analysis, each))).toEqual([
    "canal at 205 mm, width 7 mm, depth 13.4 mm ± 0.3 mm on lateral",
  ]);
});

test("a knee bent too little on the table is told beside a patient's knee that may be too stiff", () => {
  const analysis = changed(["knee-flexion 120 deg", "knee-flexion 95 deg ± 10 deg"], ["knee 100 deg", "knee 60 deg"]);
  expect(findingsOf(analysis, "knee-stiff").map(({ grade }) => grade)).toEqual(["information", "warning"]);
});

test("a knee that is surely too stiff is told once", () => {
  const analysis = changed(["knee-flexion 120 deg", "knee-flexion 60 deg"], ["knee 100 deg", "knee 60 deg"]);
  expect(findingsOf(analysis, "knee-stiff").map((each) => marked(analysis, each))).toEqual(["60 deg"]);
});

// The far square of 62 mm begins well below a fracture at 138 to 158 mm; where the near end ends is not known.
test("one known edge tells against a code, an unknown one does not", () => {
  const far = humerus(["12A2(b)", "13A2"]);
  expect(findingsOf(far, "segment-disagrees").map(({ grade }) => grade)).toEqual(["warning"]);
  const near = humerus(["12A2(b)", "11A2"]);
  expect(findingsOf(near, "segment-disagrees")).toEqual([]);
  expect(near.judgement.outcomes.get("segment-disagrees")?.outcome).toBe("cannot tell");
});

// A third of 312 mm and twice 460 mm are the bounds; the view magnifies by 1.14, so 1048.8 mm on it are 920 mm.
test.each([
  ["504 cm", 1],
  ["1050 mm", 1],
  ["1030 mm", 0],
  ["100 mm", 1],
] as const)("the far joint of a femur at %s", (level, count) => {
  const analysis = femur(["landmark joint 504 mm ± 2 mm on ap", `landmark joint ${level} on ap`]);
  const found = findingsOf(analysis, "implausible").filter(({ at }) => at === "joint");
  expect(found.length).toBe(count);
});
