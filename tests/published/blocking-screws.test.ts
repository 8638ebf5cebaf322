/** The side a blocking screw stands on, how far from the canal's axis, and how early a nail is dynamised, against the series they rest on. */
import { describe, expect, test } from "vitest";
import { printValue } from "../../server/quantity/print.ts";
import { changed, findingsOf, outcomeOf } from "../findings/judged.ts";

const injury = "coronal 9 deg varus, sagittal 6 deg procurvatum";
const wire = "    wire ball-tip\n";

function blocked(deformity: string, side: string) {
  return changed([injury, deformity], [wire, `${wire}    block at 220 mm, side ${side}, screw 40 mm\n`]);
}

// line: PB-1: half the sum of two diameters that touch (computed); last reamer head, or the nail where the canal is not reamed
describe("PB-1: the offset of a blocking screw", () => {
  const block = `${wire}    block at 220 mm, side medial\n`;
  const reamed = "    ream 8.5 mm to 11 mm by 0.5 mm\n    nail";
  test.each([
    ["last head 11 mm, screw 4 mm", reamed, "4 mm"],
    ["nail 10 mm, screw 5 mm", "    unreamed\n    nail", "5 mm"],
  ])("%s: 7.5 mm", (_what, reaming, thread) => {
    const analysis = changed([wire, block], [reamed, reaming], ["thread 4.6 mm", `thread ${thread}`]);
    const answer = analysis.reckonings?.byId.get("block.1.offset")?.answer;
    expect(answer?.kind === "known" && printValue(answer, "mm")).toBe("7.5 mm");
  });
});

// line: PB-2: Krettek et al. 1999, J Bone Joint Surg Br 81-B (printed): on the concave side; common practice, no single source
describe("PB-2: the concave side of an angulation", () => {
  test.each([
    ["varus", "medial", "lateral"],
    ["valgus", "lateral", "medial"],
  ])("of %s it is %s, and %s is found", (direction, inside, outside) => {
    const deformity = `coronal 9 deg ${direction}, sagittal 6 deg procurvatum`;
    expect(outcomeOf(blocked(deformity, inside), "block-side")).toBe("clear");
    expect(findingsOf(blocked(deformity, outside), "block-side")).toHaveLength(1);
  });

  test("is not inferred where the plane is not stated", () => {
    expect(outcomeOf(blocked("sagittal 6 deg procurvatum", "medial"), "block-side")).toBe("cannot tell");
  });
});

// line: PB-3: Krettek et al. 1999, J Bone Joint Surg Br 81-B: posterior and lateral in the proximal tibia (printed)
test.each([
  ["lateral", "clear"],
  ["posterior", "clear"],
  ["medial", "found"],
  ["anterior", "found"],
])("PB-3: valgus and procurvatum, a screw %s: %s", (side, outcome) => {
  expect(outcomeOf(blocked("coronal 9 deg valgus, sagittal 6 deg procurvatum", side), "block-side")).toBe(outcome);
});

// line: DYN-1: Pesciallo et al. 2021, doi 10.1007/s43465-021-00523-1: 18.4 ± 7.2 weeks (printed); the limit itself is a choice
test.each([
  ["5.9 weeks", "found"],
  ["18 weeks", "clear"],
])("DYN-1: dynamised at %s: %s", (time, outcome) => {
  const analysis = changed(["    review at 2 weeks", `    dynamise at ${time}, remove P1\n    review at 2 weeks`]);
  expect(outcomeOf(analysis, "dynamise-early")).toBe(outcome);
});
