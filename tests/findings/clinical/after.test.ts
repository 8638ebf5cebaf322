/** What was achieved, and what follows the operation. */
import { describe, expect, test } from "vitest";
import { achieved, protocol } from "./changes.ts";
import { type Change, checkTable, mended } from "./table.ts";

describe("the alignment achieved", () => {
  checkTable("alignment-off", [
    { what: "only the injury is given", change: [], is: "clear" },
    {
      what: "coronal 5 deg, the limit itself",
      change: [achieved("alignment coronal 5 deg varus, sagittal 0 deg procurvatum")],
      is: "clear",
    },
    {
      what: "coronal 6 deg",
      change: [achieved("alignment coronal 6 deg valgus, sagittal 0 deg procurvatum")],
      is: "warning",
      at: "6 deg",
      says: "6 deg of valgus; the limit of this plane is 5 deg; the true angle is 6 deg",
    },
    {
      what: "coronal 5 deg ± 2 deg",
      change: [achieved("alignment coronal 5 deg ± 2 deg varus")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "sagittal 10 deg, the department's limit itself",
      change: [achieved("alignment coronal 0 deg varus, sagittal 10 deg procurvatum")],
      is: "clear",
    },
    {
      what: "sagittal 11 deg",
      change: [achieved("alignment coronal 0 deg varus, sagittal 11 deg recurvatum")],
      is: "warning",
      at: "11 deg",
    },
    {
      what: "both planes",
      change: [achieved("alignment coronal 6 deg valgus, sagittal 11 deg procurvatum")],
      is: "warning",
      count: 2,
    },
    {
      what: "each plane kept, the true angle larger",
      change: [
        achieved("alignment coronal 5 deg varus, sagittal 5 deg procurvatum"),
        ['  limit sagittal up-to 10 deg, because "our alignment profile"\n', ""],
      ],
      is: "information",
      says: "Each plane keeps its limit and is judged by it; the true angle behind both is 7.1 deg, above 5 deg.",
    },
  ]);

  checkTable("rotation-off", [
    { what: "10 deg, the limit itself", change: [achieved("alignment rotation 10 deg external")], is: "clear" },
    {
      what: "11 deg",
      change: [achieved("alignment rotation 11 deg internal")],
      is: "warning",
      at: "11 deg",
      says: "turned 11 deg internal",
    },
    {
      what: "10 deg ± 4 deg",
      change: [achieved("alignment rotation 10 deg ± 4 deg external")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    {
      what: "12 deg where 15 deg are allowed",
      change: [achieved("alignment rotation 12 deg external"), protocol("limit rotation up-to 15 deg")],
      is: "clear",
    },
  ]);

  checkTable("shortening-off", [
    { what: "10 mm, the limit itself", change: [achieved("alignment short 10 mm")], is: "clear" },
    { what: "11 mm", change: [achieved("alignment short 11 mm")], is: "warning", at: "11 mm" },
    {
      what: "10 mm ± 3 mm",
      change: [achieved("alignment short 10 mm ± 3 mm")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "12 mm too long", change: [achieved("alignment long 12 mm")], is: "clear" },
  ]);
});

describe("after the operation", () => {
  const watch = (text: string): Change => [
    "watch compartment, diastolic 72 mmHg, pressure 28 mmHg",
    `watch compartment${text}`,
  ];

  checkTable("compartment-low", [
    { what: "44 mmHg", change: [], is: "clear" },
    { what: "30 mmHg, the limit itself", change: [watch(", diastolic 80 mmHg, pressure 50 mmHg")], is: "clear" },
    {
      what: "29 mmHg",
      change: [watch(", diastolic 65 mmHg, pressure 36 mmHg")],
      is: "warning",
      says: "is 29 mmHg, below 30 mmHg",
    },
    {
      what: "30 mmHg ± 4 mmHg",
      change: [watch(", diastolic 80 mmHg ± 4 mmHg, pressure 50 mmHg")],
      is: "information",
      says: / may .*\(probability 50 %\)\.$/,
    },
    { what: "watched, not measured", change: [watch("")], is: "clear" },
    {
      what: "a pressure without the diastolic",
      change: [watch(", pressure 36 mmHg")],
      is: "error",
      says: "without the diastolic pressure",
    },
    {
      what: "a diastolic without the pressure",
      change: [watch(", diastolic 70 mmHg")],
      is: "error",
      says: "without the compartment pressure",
    },
    {
      what: "the second of two readings",
      change: [
        watch(", diastolic 72 mmHg, pressure 28 mmHg\n    watch compartment, diastolic 70 mmHg, pressure 45 mmHg"),
      ],
      is: "warning",
      at: "watch compartment, diastolic 70 mmHg, pressure 45 mmHg",
      says: "is 25 mmHg",
    },
  ]);

  const noWatch: Change = ["    watch compartment, diastolic 72 mmHg, pressure 28 mmHg\n", ""];

  checkTable("compartment-watch", [
    { what: "watched", change: [], is: "clear" },
    { what: "a closed shaft, not watched", change: [noWatch], is: "information", at: "aftercare" },
    {
      what: "an open shaft, not watched",
      change: [noWatch, ["soft-tissue closed C1", "soft-tissue open I"]],
      is: "clear",
    },
  ]);

  const noReview: Change = ["    review at 2 weeks, 6 weeks, 12 weeks\n", ""];

  checkTable("review-missing", [
    { what: "planned", change: [], is: "clear" },
    { what: "not planned", change: [noReview], is: "information", at: "aftercare" },
    {
      what: "no after-care at all",
      change: [
        [
          "  aftercare {\n    weight-bearing partial 20 kg, until 6 weeks\n    watch compartment, diastolic 72 mmHg, pressure 28 mmHg\n    review at 2 weeks, 6 weeks, 12 weeks\n  }\n\n",
          "",
        ],
      ],
      is: "information",
      besides: ["compartment-watch"],
    },
  ]);

  test("what is missing is put at the end of the after-care", () => {
    expect(mended("review-missing", [noReview]).text).toContain(
      "pressure 28 mmHg\n    review at 2 weeks, 6 weeks, 12 weeks\n  }\n",
    );
    expect(mended("compartment-watch", [noWatch]).text).toContain("12 weeks\n    watch compartment\n  }\n");
  });
});
