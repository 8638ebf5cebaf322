/** Blocking screws: the side against each direction of the stated deformity, and their place before the reaming. */
import { describe, expect, test } from "vitest";
import { lines, noFallback } from "./changes.ts";
import { type Case, type Change, checkTable, mended } from "./table.ts";

const stated = "alignment coronal 9 deg varus, sagittal 6 deg procurvatum, rotation 12 deg external, short 8 mm";
const alignment = (text: string): Change => [stated, `alignment ${text}`];
const block = (side: string): Change => [lines.wire, `${lines.wire}    block at 220 mm, side ${side}, screw 40 mm\n`];

/** PB-2 and PB-3, Krettek 1999: the concave side of each direction. */
const concave = [
  ["coronal 9 deg varus", "medial", "lateral"],
  ["coronal 9 deg valgus", "lateral", "medial"],
  ["sagittal 9 deg procurvatum", "posterior", "anterior"],
  ["sagittal 9 deg recurvatum", "anterior", "posterior"],
] as const;

describe("the side", () => {
  checkTable("block-side", [
    { what: "no blocking screw", change: [], is: "clear" },
    ...concave.flatMap(([deformity, inside, outside]): readonly Case[] => [
      { what: `${deformity}, ${inside}`, change: [alignment(deformity), block(inside)], is: "clear" },
      {
        what: `${deformity}, ${outside}`,
        change: [alignment(deformity), block(outside)],
        is: "warning",
        at: outside,
        says: `the concave side is ${inside}; the blocking screw stands ${outside}, on the convex side.`,
      },
    ]),
    {
      what: "a plane that is not stated",
      change: [alignment("coronal 9 deg varus"), block("anterior")],
      is: "cannot tell",
    },
    { what: "no alignment at all", change: [[`    ${stated}\n`, ""], block("medial")], is: "cannot tell" },
    { what: "0 deg", change: [alignment("coronal 0 deg varus"), block("lateral")], is: "cannot tell" },
    {
      what: "0.5 deg ± 1 deg",
      change: [alignment("coronal 0.5 deg ± 1 deg varus"), block("lateral")],
      is: "information",
      says: /which may be the convex side \(probability 84 %\)\.$/,
    },
  ]);

  test("is turned to the concave one", () => {
    const again = mended("block-side", [alignment("coronal 9 deg valgus"), block("medial")]);
    expect(again.text).toContain("block at 220 mm, side lateral, screw 40 mm\n");
  });
});

describe("the order", () => {
  const late: readonly Change[] = [
    noFallback,
    [lines.check, `    block at 220 mm, side medial, screw 40 mm\n${lines.check}`],
  ];
  checkTable("block-side", [
    { what: "before the reaming", change: [noFallback, block("medial")], is: "clear" },
    { what: "after the reaming", change: late, is: "warning", at: "block", says: "goes in after the reaming" },
  ]);

  test("is mended by blocking first, with the line as typed", () => {
    const again = mended("block-side", late);
    expect(again.text).toContain("    block at 220 mm, side medial, screw 40 mm\n    ## Chatter starts");
  });
});
