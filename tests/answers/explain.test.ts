/** Explanations: everything that can be named is explained, from the same data that judges, reckons and reads. */
import { describe, expect, test } from "vitest";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";
import { explain, explainable, nearestTerm } from "../../server/answers/explain.ts";

const terms = explainable();

describe("everything that is listed is explained", () => {
  test.each(Object.entries(terms))("%s", (_, listed) => {
    expect(listed.length).toBeGreaterThan(1);
    expect(listed.filter((term) => (explain(term) ?? "").trim() === "")).toEqual([]);
    expect(new Set(listed).size).toBe(listed.length);
  });

  test("units and functions too", () => {
    for (const word of unitWords.keys()) expect(explain(word), word).toContain("# Unit");
    for (const word of functionWords.keys()) expect(explain(word), word).toContain("# Function");
  });

  test("and nothing in it is undefined or no number", () => {
    const told = Object.values(terms).flatMap((listed) => listed.map((term) => explain(term) ?? ""));
    expect(told.filter((text) => /undefined|NaN|\[object/.test(text))).toEqual([]);
  });
});

describe("an explanation", () => {
  test.each([
    [
      "reaming-overshoot",
      "# Reamed further over the nail than the limit",
      "`reaming-over-nail` 0.5 mm to 1.5 mm",
      "Wrong:",
      "Right:",
      "Basis: ",
    ],
    ["unknown-word", "Wrong:", "Right:"],
    [
      "coronal",
      "# Limit `coronal`",
      "varus or valgus: up to 5 deg",
      "Measured on: 133 tibial shaft fractures",
      "# `coronal` of `alignment`",
    ],
    ["cortex-left", "department's choice", "Information only."],
    ["level.scar", "# level of scar", "In the worked example:", " % from "],
    ["hole.Q7.level", "# level of hole "],
    ["lock", "# `lock` in `operation`", "- `drilled`:", "```isthmus\nlock D2, drilled 31 mm, screw 32 mm\n```"],
    ["drilled", "# `drilled` of `lock` in `operation`"],
    ["°", "**deg**", "Other units of angle: rad."],
    ["mmHg", "133.322387415", "Other units of pressure: kPa, MPa, GPa."],
    ["HU", "Hounsfield"],
    ["hypot", "hypot(values, …)"],
  ])("of %s", (term, ...parts) => {
    for (const part of parts) expect(explain(term) ?? "").toContain(part);
  });

  test.each(["", "nothing", "hole.Q7", "hole.Q7.colour", "__proto__", "constructor", "a.b.c"])(
    "of %j is none",
    (term) => {
      expect(explain(term)).toBeUndefined();
    },
  );
});

test.each([
  ["reaming-overshot", "reaming-overshoot"],
  ["lok", "lock"],
  ["coronl", "coronal"],
  ["level.scr", "level.scar"],
  ["quux", undefined],
])("the term nearest to %s is %s", (typed, near) => expect(nearestTerm(typed)).toBe(near));

test("a limit tells its profiles and what a protocol can write", () => {
  expect(explain("sagittal")).toMatch(
    /up to 5 deg[\s\S]*Basis: Freedman[\s\S]*Profiles: `every-plane-five` up to 5 deg; `sagittal-ten` up to 10 deg\.[\s\S]*limit sagittal up-to 5 deg, because/,
  );
  expect(explain("cortex-left")).toMatch(/limit cortex-left at-least 3 mm/);
  expect(explain("cortex-left")).not.toContain("Profiles");
});

test("the seal of a review is explained where its change is", () => {
  const told = explain("changed-since-review");
  for (const part of ["SHA-256", "16 digits", "canonical layout", "`reviewed` lines", "not the catalogue"]) {
    expect(told).toContain(part);
  }
});
