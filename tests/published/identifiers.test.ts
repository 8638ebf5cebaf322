/** What counts as an identifier of a patient, against the printed list. All names, numbers and dates are made up. */
import { describe, expect, test } from "vitest";
import { analyse } from "../../server/answers/analyse.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import type { Finding } from "../../server/findings/finding.ts";
import { rule } from "../../server/findings/identifier.ts";
import { changed, findingsOf, fixed, marked } from "../findings/judged.ts";

/** The sample with one more comment in it. */
function noted(comment: string) {
  return changed(["    wire ball-tip\n", `    wire ball-tip # ${comment}\n`]);
}

const said = (findings: readonly Finding[]) => findings.map((each) => `${each.grade}: ${each.message}`);

// line: HIP-1: 45 CFR 164.514(b)(2)(i): (A) to (R), eighteen (printed)
test("HIP-1: the rule rests on the list from (A) to (R), eighteen letters", () => {
  expect(rule.basis).toMatchObject({ mark: "printed" });
  const [, first = "", last = ""] = /\(([A-Z])\) to \(([A-Z])\)/.exec(rule.basis.text) ?? [];
  expect(last.charCodeAt(0) - first.charCodeAt(0) + 1).toBe(18);
});

// line: HIP-2: 45 CFR 164.514(b)(2)(i)(C): ages over 89, which may be told together as 90 or older (printed)
describe("HIP-2: an age", () => {
  const age = (typed: string) => changed(["age 34 years", `age ${typed}`]);

  test.each(["89 years", "90 years"])("%s may stand, 90 years for all who are older", (typed) => {
    expect(findingsOf(age(typed), "identifier")).toEqual([]);
  });

  test("91 years may not, and becomes 90 years", () => {
    const analysis = age("91 years");
    const [found, ...more] = findingsOf(analysis, "identifier");
    expect(marked(analysis, found)).toBe("91 years");
    expect(fixed(analysis, found)).toContain("\n    age 90 years\n");
    expect(more).toEqual([]);
  });

  test("in a text 89 may stand, 90 becomes 90 or older", () => {
    expect(findingsOf(noted("89 years old"), "identifier")).toEqual([]);
    const analysis = noted("90 years old");
    expect(fixed(analysis, findingsOf(analysis, "identifier")[0])).toContain("# 90 or older\n");
  });
});

// line: HIP-3: 45 CFR 164.514(b)(2)(i)(B) and (C): of dates the year alone; of small areas no postal code (printed)
describe("HIP-3: dates and places", () => {
  test("of a date the year is left", () => {
    const analysis = noted("fell on 2024-03-05");
    const [found] = findingsOf(analysis, "identifier");
    expect(marked(analysis, found)).toBe("2024-03-05");
    expect(fixed(analysis, found)).toContain("# fell on 2024\n");
  });

  test("a postal code is found, however many live there: the tool does not know", () => {
    const analysis = noted("zip 12345");
    const [found] = findingsOf(analysis, "identifier");
    expect(marked(analysis, found)).toBe("12345");
  });
});

// line: HIP-4: 45 CFR 164.514(b)(2)(i)(M): device identifiers and serial numbers (printed)
test.each([
  ["lot no. 88121", "88121"],
  ["serial no. TX99812", "TX99812"],
])("HIP-4: of the nail, %s is found", (comment, number) => {
  const analysis = noted(comment);
  const found = findingsOf(analysis, "identifier");
  expect(said(found)).toEqual(["warning: This looks like a serial or lot number; a plan needs none."]);
  expect(marked(analysis, found[0])).toBe(number);
});

// line: HIP-5: 45 CFR 164.514(b)(2)(i)(A), (C) and (R): wherever they stand (printed list; where a plan holds text
// computed from its language)
describe("HIP-5: wherever a person writes", () => {
  test.each([
    ["a comment", ["    wire ball-tip\n", "    wire ball-tip # operated 2024-03-05\n"]],
    ["a note", ["## Chatter starts", "## Operated 2024-03-05. Chatter starts"]],
    ["the title", ["shaft, invented", "shaft, operated 2024-03-05"]],
    ["a fallback's name", ["the 10 mm nail stops", "on 2024-03-05 the nail stops"]],
    ["the case's label", ["case TN-0417", 'case "operated 2024-03-05"']],
  ] as const)("%s", (_, change) => {
    const analysis = changed(change);
    expect(findingsOf(analysis, "identifier").map((found) => marked(analysis, found))).toEqual(["2024-03-05"]);
  });

  test("the file's name", () => {
    const { text, library } = exampleDocument({ change: [] });
    const named = (file: string) => findingsOf(analyse(file, text, library), "identifier");
    expect(named("plans/oblique-shaft.isthmus")).toEqual([]);
    expect(said(named("plans/operated 2024-03-05.isthmus"))).toEqual([
      "warning: The file's name looks like it holds a date; a plan needs none.",
    ]);
  });
});
