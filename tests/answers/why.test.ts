/** Why a number is uncertain, and what would settle a decision: the budget's lines and the need of a finding, in words. */
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../server/answers/analyse.ts";
import { budgetLines, findingsOn, needText } from "../../server/answers/why.ts";
import { constant, exact, measured, unknown } from "../../server/quantity/arithmetic.ts";
import type { Reckoning } from "../../server/reckoning/reckoning.ts";
import { analyseText, sampleText, sampleWith } from "../check.ts";

const plan = "plans/simple-shaft.isthmus";
const analysis = analyseText(sampleText(plan));
const loose = analyseText(sampleText("plans/uncertain-limits.isthmus"));

function reckoning(id: string, of: Analysis = analysis): Reckoning {
  const found = of.reckonings?.byId.get(id);
  if (found === undefined) throw new Error(`no reckoning ${id}`);
  return found;
}

describe("a budget", () => {
  test("names each reading with its share, its own ± and what it adds, the largest first", () => {
    // (395 ± 2) mm / 1.12 with 1.12 from 28 mm ± 0.15 mm: 2 / 1.12 = 1.79 mm and 352.68 × 0.15 / 28 = 1.89 mm at k = 2.
    expect(budgetLines(reckoning("level.scar"))).toEqual([
      "53 % from marker seen on ap (± 0.15 mm), ± 1.89 mm of it",
      "47 % from scar (± 2 mm), ± 1.79 mm of it",
    ]);
  });

  test("one reading is all of it", () => {
    expect(budgetLines(reckoning("magnification.ap"))).toEqual([
      "100 % from marker seen on ap (± 0.15 mm), ± 0.006 of it",
    ]);
  });

  test.each(["nail.tip", "segment"])("none for what is exact or a word: %s", (id) => {
    expect(budgetLines(reckoning(id))).toEqual([]);
  });

  test("none for what is withheld", () => {
    const withheld = analyseText(sampleWith(plan, ["landmark scar 395 mm ± 2 mm on ap", "landmark scar 395 on ap"]));
    expect(reckoning("level.scar", withheld).answer.kind).toBe("unknown");
    expect(budgetLines(reckoning("level.scar", withheld))).toEqual([]);
  });
});

describe("a need", () => {
  const reading = (value: number, halfWidth: number) =>
    measured(value, halfWidth, "mm", { id: "one", label: "the scar" });

  test("says to what the leading reading would have to be known", () => {
    // One-sided 95 % of a normal distribution is 1.645 standard deviations: 3 mm / 1.645 × 2 = 3.65 mm at k = 2.
    expect(needText({ value: reading(3, 6), limit: constant(0, "mm") })).toBe(
      "to be settled it needs the scar to ± 3.6 mm; now ± 6 mm",
    );
  });

  test("says so when no reading would do", () => {
    expect(needText({ value: reading(0, 6), limit: constant(0, "mm") })).toBe(
      "the scar alone would not settle it, however well it were known (now ± 6 mm)",
    );
  });

  test.each([
    ["a value that is settled", { value: reading(30, 6), limit: constant(0, "mm") }],
    ["an exact value", { value: exact(3, "mm"), limit: constant(0, "mm") }],
    ["a value that is unknown", { value: unknown("nobody knows"), limit: constant(0, "mm") }],
    ["a limit that is unknown", { value: reading(3, 6), limit: unknown("nobody knows") }],
    ["a finding without numbers", {}],
  ])("nothing for %s", (_, finding) => expect(needText(finding)).toBeUndefined());

  test("of every uncertain finding of a sample", () => {
    const open = loose.judgement.findings.filter(({ probability }) => probability !== undefined && probability < 0.95);
    expect(open.length).toBeGreaterThan(3);
    for (const finding of open) expect(needText(finding)).toMatch(/now ± \d/);
  });
});

describe("findings on a number", () => {
  test("are those that hold it against a limit", () => {
    expect(findingsOn(loose, reckoning("compartment.gradient", loose)).map(({ slug }) => slug)).toEqual([
      "compartment-low",
    ]);
    expect(findingsOn(loose, reckoning("screw.D2.beyond", loose)).map(({ at }) => at)).toEqual(["D2"]);
  });

  test("are none where nothing was found", () => {
    expect(findingsOn(analysis, reckoning("compartment.gradient"))).toEqual([]);
  });
});
