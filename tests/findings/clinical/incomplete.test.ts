/**
 * Plans with parts missing. A rule asked by itself, past all that is told of the text, may not call clear what it could not look at,
 * and each rule bears any part of the sample being gone.
 */
import { describe, expect, test } from "vitest";
import { rules } from "../../../server/findings/all.ts";
import { exampleCatalogue, examplePlan } from "../../../server/findings/example.ts";
import { compress, isthmus, lines, noCatalogue, noFallback, reamed, unreamed, without } from "./changes.ts";
import { asked, type Change, subjectOf } from "./table.ts";

const fracture: Change = ["    fracture 42A2, from 208 mm on ap to 232 mm on ap, gap 3 mm ± 1 mm, fibula 4F2A\n", ""];
const noNail: readonly Change[] = [without("nail")];
const tolerated: Change = ["weight-bearing partial 20 kg, until 6 weeks", "weight-bearing tolerated, until 6 weeks"];
const dynamised = (text: string): Change => ["    review at 2 weeks", `    dynamise ${text}\n    review at 2 weeks`];
const unloaded: readonly Change[] = [
  ["    weight 78 kg\n", ""],
  ["    weight-bearing partial 20 kg, until 6 weeks\n", ""],
];
const heads = (text: string): readonly Change[] => reamed(text);

/** What cannot be told, and why. */
const untold: readonly (readonly [slug: string, change: readonly Change[], because: string | RegExp])[] = [
  ...[
    "cap-missing",
    "fit-ratio",
    "nail-deep",
    "nail-long",
    "nail-proud",
    "nail-short",
    "nail-unlisted",
    "screws-few",
    "screws-few-short-fragment",
  ].map((slug) => [slug, noNail, "no nail is planned"] as const),
  ...["screws-few", "screws-few-short-fragment", "screw-in-fracture", "screw-near-fracture"].map(
    (slug) => [slug, [fracture], "no fracture is given"] as const,
  ),
  ...["code-unknown", "code-old-spelling", "compartment-watch"].map(
    (slug) =>
      [
        slug,
        [fracture, ["    watch compartment, diastolic 72 mmHg, pressure 28 mmHg\n", ""]],
        "the fracture has no code",
      ] as const,
  ),
  ...["reaming-overshoot", "reaming-undershoot", "nail-unlisted"].map(
    (slug) => [slug, [[", diameter 10 mm", ""]], /diameter/] as const,
  ),
  ["fracture-reversed", [fracture], "the fracture's edges are not given"],
  ["segment-disagrees", [fracture], "the fracture has no code that can be read"],
  ["nail-unfit", [fracture], "the fracture has no code of the classification"],
  ["overinsertion-short", [[", sunk 8 mm", ""]], "it is not given how far the nail is sunk"],
  ["nail-proud", [[", sunk 8 mm", ""]], /sunk/],
  ["nail-deep", [[", sunk 8 mm", ""]], /sunk/],
  ["cap-proud", [[", sunk 8 mm", ""]], /sunk/],
  ["nail-short", [[", length 345 mm", ""]], /length/],
  ["nail-long", [[", length 345 mm", ""]], /length/],
  ["unreamed-tight", [...unreamed(), [", diameter 10 mm", ""]], "the diameter of the nail is not given"],
  [
    "unreamed-tight",
    [
      ...unreamed(),
      [examplePlan.slice(examplePlan.indexOf("    canal at 60"), examplePlan.indexOf("    bone at 30")), ""],
    ],
    /canal/,
  ],
  [
    "one-plane",
    [[examplePlan.slice(examplePlan.indexOf("    canal at 60"), examplePlan.indexOf("    bone at 30")), ""]],
    "the canal is not given",
  ],
  [
    "cortex-thin",
    [[examplePlan.slice(examplePlan.indexOf("    bone at 30"), examplePlan.indexOf("  }\n\n  operation")), ""]],
    "no outer width of the bone is given",
  ],
  [
    "screw-wrong",
    [
      [", diameter 10 mm", ""],
      ["    core 3.9 mm\n", "    core 3.9 mm\n    with diameters 9 mm\n"],
    ],
    "the diameter of the nail is not given",
  ],
  ["screw-short", [["lock D2, drilled 31 mm, screw 32 mm", "lock D2, screw 32 mm"]], /drilled/],
  ["screw-overlength", [["lock D2, drilled 31 mm, screw 32 mm", "lock D2, screw 32 mm"]], /drilled/],
  [
    "screw-unlisted",
    [["lock D2, drilled 31 mm, screw 32 mm", "lock D2, drilled 31 mm"]],
    "the length of the screw in hole D2 is not given",
  ],
  [
    "screw-unlisted",
    [["lock D2, drilled 31 mm, screw 32 mm", "lock D9, drilled 31 mm, screw 32 mm"]],
    "it is not known which screws hole D9 takes",
  ],
  [
    "screw-perforates",
    [["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw 31 mm, grip near"]],
    "the screw in hole D2 is not listed",
  ],
  [
    "screw-wrong",
    [["lock D2, drilled 31 mm, screw 32 mm", "lock D2, drilled 31 mm, screw dowel 32 mm"]],
    "screws dowel are not listed",
  ],
  ["screw-wrong", [["    lock D1, drilled", "    lock D9, drilled"]], "the catalogue does not list hole D9"],
  ["cap-unlisted", [["    caps 0 mm, 5 mm, 10 mm, 15 mm\n", ""]], "nail fenwick lists no caps"],
  ["cap-unlisted", [[lines.cap, "    cap 5 deg\n"]], "the extension of the cap is not known"],
  ["nail-unlisted", [["catalogue/fenwick.isthmus", "catalogue/none.isthmus"]], "a catalogue could not be read"],
  ["nail-unlisted", [["length 345 mm", "length 345 deg"]], /length/],
  ["nail-unlisted", [["    lengths 240 mm to 420 mm by 15 mm\n", ""]], "the nail lists no length"],
  ["nail-short", [["length 345 mm", "length 299 mm"]], "the length of the nail is not listed"],
  ["head-unlisted", heads("8.5 mm, 9 deg"), "a reamer head is unknown"],
  [
    "head-unlisted",
    [noFallback, [exampleCatalogue.slice(exampleCatalogue.indexOf("  reamers {"), -2), ""]],
    "no catalogue that was read lists reamer heads",
  ],
  ["reaming-order", heads("8.5 mm, 9 deg"), "a reamer head is unknown"],
  ["compression-past-gap", [[", gap 3 mm ± 1 mm", ""]], "no gap of the fracture is given"],
  ["entry-off", [[", from-midline 8 mm lateral", ""]], /from the midline/],
  ["knee-stiff", [[lines.enter, ""]], "no approach is given"],
  ["growth-plates-open", [["    growth-plates closed\n", ""]], /growth plates/],
  [
    "antibiotic-missing",
    [
      ["    soft-tissue closed C1\n", ""],
      ["prepare antibiotic, time-out", "prepare time-out"],
      ["demand time-out, antibiotic", "demand time-out"],
    ],
    /open/,
  ],
  [
    "compartment-watch",
    [
      ["    soft-tissue closed C1\n", ""],
      ["    watch compartment, diastolic 72 mmHg, pressure 28 mmHg\n", ""],
    ],
    /closed/,
  ],
  [
    "segment-disagrees",
    [
      ["    bone tibia\n", "    bone femur\n"],
      ["fracture 42A2", "fracture 32A2"],
    ],
    "no landmark lesser-trochanter is given",
  ],
  ["nail-unfit", [noCatalogue], "the nail is in no catalogue that was read"],
  ["fit-ratio", [...unreamed(), isthmus("9 mm", "12 mm")], "the unreamed nail is wider than the isthmus"],
  ["segment-disagrees", [["from 208 mm on ap to 232 mm on ap, ", ""]], /edge/],
  ["bearing-unstable", [fracture, tolerated], "the fracture has no code"],
  ["bearing-unstable", [["fracture 42A2", "fracture 2R1A3"], tolerated], "2R1A3 is no fracture code"],
  ["dynamise-unstable", [fracture, dynamised("at 8 weeks, remove P1")], "the fracture has no code"],
  ["dynamise-early", [dynamised("remove P1")], "it is not given when the nail is dynamised"],
  ["unreamed-tight", [...unreamed(), ["diameter 10 mm", "diameter 10 deg"]], /diameter/],
  ["screw-unlisted", [["screw 32 mm", "screw 32 deg"]], "the length of the screw in hole D2 is unknown"],
  ["screw-stress", [["    material titanium-alloy\n", ""]], "nail fenwick lists no material"],
  ["screw-stress", unloaded, /weight/],
  ["gap-strain", unloaded, /weight/],
  ["screw-perforates", [["drilled 31 mm, screw 32 mm", "drilled 31 mm, grip near"]], /screw/],
  ["drill-odd", [["drilled 31 mm", "drilled 31 deg"]], /drilled/],
  ["nail-unlisted", [["nail fenwick, diameter", "nail diameter"]], "the nail is not named"],
  ["fatigue-distance", [[", length 345 mm", ""]], "the length of the nail is not given"],
  [
    "nail-near-joint",
    [
      [", sunk 8 mm", ""],
      ["    landmark scar", "    landmark knee-joint 0 mm\n    landmark scar"],
    ],
    /sunk/,
  ],
  [
    "nail-length-estimate",
    [
      ["    landmark scar 416 mm ± 2 mm on ap\n", ""],
      ["    landmark plafond 432 mm ± 2 mm on ap\n", "    nail-length 348 deg\n"],
    ],
    /length/,
  ],
  ["compression-past-gap", [["gap 3 mm ± 1 mm", "gap 3 deg"]], /gap/],
  ["compression-beyond-travel", [["travel 6 mm", "travel 6 deg"], compress("8 mm")], /travel/],
  ["compression-beyond-travel", [["travel 6 mm", "travel 6 deg"], compress("8 turns")], /travel/],
  ["cap-proud", [[lines.cap, "    cap\n"]], /cap/],
  ["cap-unlisted", [[lines.cap, "    cap\n"]], "the extension of the cap is not known"],
  ["block-side", [[lines.wire, `${lines.wire}    block at 220 mm, screw 40 mm\n`]], /the side of a blocking screw/],
  [
    "block-side",
    [
      [lines.wire, `${lines.wire}    block at 220 mm, side medial, screw 40 mm\n`],
      ["coronal 9 deg varus", "coronal 9 mm varus"],
    ],
    /coronal/,
  ],
  ["reaming-start", heads("by 0.5 mm"), /head/],
  ["reaming-overshoot", heads("8.5 mm, 9 deg"), /head/],
  ["reaming-undershoot", heads("8.5 mm, 9 deg"), /head/],
];

describe("what is not given cannot be told", () => {
  test.each(untold.map((row) => [row[0], `${row[2]}`, row] as const))("%s: %s", (_, __, [slug, change, because]) => {
    const verdict = asked(slug, change);
    expect(verdict.found).toEqual([]);
    expect((verdict.untold ?? []).join("; ")).toMatch(because);
  });
});

describe("a rule says nothing where its question does not arise", () => {
  const femur: readonly Change[] = [["    bone tibia\n", "    bone femur\n"]];
  test.each<[string, readonly Change[]]>([
    ["entry-off", femur],
    ["knee-stiff", femur],
    ["compartment-watch", femur],
    ["growth-plates-open", noNail],
    ["removal-order", [[examplePlan.slice(examplePlan.indexOf("  removal {"), -2), ""]]],
    ["removal-incomplete", [[examplePlan.slice(examplePlan.indexOf("  removal {"), -2), ""]]],
    ["alignment-off", []],
    ["infection", []],
    ["tourniquet-reaming", []],
  ])("%s", (slug, change) => {
    expect(asked(slug, change)).toEqual({ found: [] });
  });
});

/** Lines of the sample that stand once and open or close no block. */
const soleLines: readonly string[] = examplePlan
  .split("\n")
  .map((line) => `\n${line}\n`)
  .filter((line) => examplePlan.split(line).length === 2 && !/[{}]\s*$/.test(line));

describe.each([
  ["alone", []],
  ["with the catalogue", [noCatalogue]],
] as const)("every line of the sample may be gone, %s", (_, also) => {
  const gone = soleLines.filter((line) => also.length === 0 || !line.includes('use "'));

  test("and no rule fails or speaks of what is unknown", () => {
    expect(gone.length).toBeGreaterThan(40);
    for (const line of gone) {
      const subject = subjectOf([[line, "\n"], ...also]);
      for (const rule of rules.filter((each) => each.kind === "plan")) {
        for (const { message } of rule.check(subject).found)
          expect(message, rule.slug).not.toMatch(/unknown|undefined|NaN/);
      }
    }
  });
});
