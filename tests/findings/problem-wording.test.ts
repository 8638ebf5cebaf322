/** The sentence of each rule over the text itself: for a problem that says nothing but its place, and for the forms a text seldom takes. */
import { describe, expect, test } from "vitest";
import type { Problem } from "../../grammar/problems.ts";
import { rules } from "../../server/findings/all.ts";
import type { DocumentRule } from "../../server/findings/finding.ts";
import { headsOf, rewriteHeads } from "../../server/findings/head-list.ts";
import { quantitiesWithin } from "../../server/findings/tree-walk.ts";
import { unitSlipFixes } from "../../server/findings/unit-slip.ts";
import { errorsOfText } from "../../server/findings/worded-problems.ts";
import { constant } from "../../server/quantity/arithmetic.ts";
import { stepsOf } from "../../server/reckoning/given.ts";
import { subjectOf } from "./clinical/table.ts";
import { changed, findingsOf, judged, marked, outcomeOf } from "./judged.ts";

const worded: readonly DocumentRule[] = rules.filter((rule) => rule.kind === "document");
const span = { start: 0, end: 4 };

function said(slug: Problem["slug"], rest: Partial<Problem>): string | undefined {
  return worded.find((rule) => rule.slug === slug)?.wording({ slug, span, ...rest }).message;
}

/** A document rule words the problems of its own slug. */
function bare(slug: string): string {
  const rule = worded.find((each) => each.slug === slug);
  const problem = { span, slug } as Problem;
  return rule?.wording(problem).message ?? "";
}

describe("a problem that says nothing but its place has a sentence", () => {
  test("for every rule there is", () => {
    expect(worded.length).toBeGreaterThan(15);
  });

  test.each(worded.map(({ slug }) => slug))("%s", (slug) => {
    expect(bare(slug)).toMatch(/^\p{Lu}.*\.$/u);
    expect(bare(slug)).not.toMatch(/undefined|""| {2}/);
  });
});

test.each<[Problem["slug"], Partial<Problem>, string]>([
  [
    "unreadable",
    { found: "division by zero", expected: ["an expression with a value"] },
    "This has no value: division by zero.",
  ],
  [
    "unreadable",
    { found: "", inside: "case", expected: ["side"] },
    'Something is missing in case; expected there: "side".',
  ],
  ["unit-missing", { found: "432" }, "432 has no unit."],
  ["missing", { inside: "case" }, "Something is missing in case."],
  [
    "name-unknown",
    { found: "a", inside: "its own definition" },
    '"a" is used in its own definition, so it has no value.',
  ],
  ["file-missing", { found: "a.isthmus" }, '"a.isthmus" cannot be read.'],
  [
    "file-missing",
    { found: "a.isthmus", inside: "a plan", expected: ["a catalogue"] },
    '"a.isthmus" is a plan, not a catalogue.',
  ],
])("%s: %o", (slug, problem, sentence) => {
  expect(said(slug, problem)).toBe(sentence);
});

test("a character nobody sees is milder inside a text", () => {
  const analysis = changed(['"Oblique fracture', '"Obli\u200bque fracture']);
  expect(findingsOf(analysis, "hidden-character").map(({ grade, message }) => `${grade}: ${message}`)).toEqual([
    "warning: The character U+200B stands in a text and cannot be seen.",
  ]);
});

test("a problem that no rule words counts as an error of the text", () => {
  expect(errorsOfText([{ slug: "too-long", span }], [])).toEqual(["the text has one error in it"]);
});

test("a text with more problems than are told leaves no rule over the text clear", () => {
  const analysis = judged({ text: `isthmus 1\n\nplan "Invented" {\n${"  ?\n".repeat(400)}}\n` });
  expect(outcomeOf(analysis, "decimal-comma")).toBe("cannot tell");
  expect(analysis.judgement.outcomes.get("decimal-comma")?.because).toContain(
    "the text has more problems than are told",
  );
});

describe("the tree walked", () => {
  const typed = "landmark plafond max(430 mm, (432 mm), -(1 mm)) on ap";
  const subject = subjectOf([["landmark plafond 432 mm ± 2 mm on ap", typed]]);

  test("finds quantities in calls and brackets", () => {
    const start = subject.text.indexOf(typed);
    const found = quantitiesWithin(subject.plan.statement, { start, end: start + typed.length });
    expect(found.map(({ number }) => number.text)).toEqual(["430", "432", "1"]);
  });

  test("a length typed in another file is not mended in this one", () => {
    const place = { file: "elsewhere.isthmus", span };
    const value = constant(43.2, "mm");
    expect(unitSlipFixes(subject.plan, { quantity: value, place }, value, { most: constant(50, "mm") })).toEqual([]);
  });

  test("no heads leave the reaming as it is typed", () => {
    const [ream] = stepsOf(subject.plan, "ream");
    expect(ream && headsOf(ream)?.length).toBe(6);
    expect(ream && rewriteHeads(subject.plan, ream, [])).toEqual([]);
  });
});

describe("a protocol", () => {
  const line = (text: string): readonly [string, string] => ["  grade cap-missing warning\n", `  ${text}\n`];

  test("that cannot be read sets nothing", () => {
    const analysis = changed(["protocol/teaching", "protocol/none"]);
    expect(findingsOf(analysis, "file-missing").map((each) => marked(analysis, each))).toEqual([
      '"protocol/none.isthmus"',
    ]);
    expect(findingsOf(analysis, "demanded")).toEqual([]);
  });

  test("may name a finding twice that nobody may waive: the first place is told", () => {
    const analysis = changed(
      ["  status for-review\n", '  status for-review\n  waive infection, because "treated", signed "A. Sample"\n'],
      line("never-waive infection\n  never-waive infection"),
    );
    expect(findingsOf(analysis, "waiver-refused")).toHaveLength(1);
  });

  test("sets no grade with a word that is none", () => {
    const analysis = changed(line("grade compression-past-gap loud"));
    expect(findingsOf(analysis, "compression-past-gap").map(({ grade }) => grade)).toEqual(["information"]);
  });

  test("turns a rule over waivers off", () => {
    const analysis = changed(line("grade waiver-unused off"));
    expect(analysis.judgement.outcomes.get("waiver-unused")).toEqual({
      outcome: "not run",
      because: ["turned off by the protocol"],
    });
  });
});
