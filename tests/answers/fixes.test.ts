/** Quick fixes: each row puts the cursor on a finding, takes the fix by its title and names the lines that change. */
import { describe, expect, test } from "vitest";
import { fixesIn } from "../../server/answers/fixes.ts";
import { analyseText, checkFix, sampleText, sampleWith } from "../check.ts";

const plan = "plans/simple-shaft.isthmus";
const zone = "from 190 mm on ap to 198 mm on ap, gap 4 mm ± 1 mm, fibula 4F2A";

describe("the fix at the cursor", () => {
  test.each([
    [
      "ream 8.5 mm to 11 mm by 0.5 mm",
      "ream 8.5 mm to 1$03 mm by 0.5 mm",
      "last head 13 mm → 11.5 mm",
      ["- ream 8.5 mm to 13 mm by 0.5 mm", "+ ream 8.5 mm to 11.5 mm by 0.5 mm"],
    ],
    ["side right\n", "si$0ed right\n", "Change `sied` to `side`", ["- sied right", "+ side right"]],
    ["weight 74 kg", "weight 7$04", "Write it in kg", ["- weight 74", "+ weight 74 kg"]],
    ["weight 74 kg", "weight 74$0,5 kg", "Write 74.5", ["- weight 74,5 kg", "+ weight 74.5 kg"]],
    ["cap 5 mm\n", "cap 10$0 mm\n", "cap 10 mm → 5 mm", ["- cap 10 mm", "+ cap 5 mm"]],
    [
      "support distal-thigh",
      "support kn$0ee",
      "support knee → distal-thigh",
      [
        "- position supine, table radiolucent, support knee, knee 100 deg",
        "+ position supine, table radiolucent, support distal-thigh, knee 100 deg",
      ],
    ],
    [
      "fracture 42A3(b), from",
      "fracture 42-A$03(b), from",
      "",
      [`- fracture 42-A3(b), ${zone}`, `+ fracture 42A3(b), ${zone}`],
    ],
  ] as const)("%s → %s", (line, typed, title, changes) => {
    checkFix(sampleWith(plan, [line, typed]), title, changes);
  });

  test("puts a line in", () => {
    const source = sampleWith(plan, ["    wire ball-tip\n", ""], ["ream 8.5 mm to", "re$0am 8.5 mm to"]);
    checkFix(source, "put in `wire ball-tip` before reaming", ["+ wire ball-tip"]);
  });

  test("takes its finding away", () => {
    const source = sampleWith(plan, ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 4$00 mm"]);
    const fixed = checkFix(source, "screw 40 mm → ", [
      "- lock D2, drilled 32 mm, screw 40 mm",
      "+ lock D2, drilled 32 mm, screw 32 mm",
    ]);
    expect(analyseText(fixed).judgement.findings).toEqual([]);
  });

  test("in a protocol too", () => {
    const source = sampleWith("protocol/ellerby.isthmus", ["grade cap-missing warning", "grade cap-mising$0 warning"]);
    checkFix(
      source,
      "write cap-missing",
      ["- grade cap-mising warning", "+ grade cap-missing warning"],
      "../protocol/other.isthmus",
    );
  });
});

describe("fixes in a stretch", () => {
  const mistaken = sampleText("plans/typical-mistakes.isthmus");
  const analysis = analyseText(mistaken);

  test("all of the text's, in its order, each with its finding", () => {
    const fixes = fixesIn(analysis, { start: 0, end: mistaken.length });
    const starts = fixes.map(({ finding }) => finding.place.span.start);
    expect(fixes.length).toBeGreaterThan(5);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    expect(new Set(fixes.map(({ finding }) => finding.slug)).size).toBeGreaterThan(5);
  });

  test("none where nothing was found, and one at either edge of what was", () => {
    const finding = analysis.judgement.findings.find(({ slug }) => slug === "reaming-overshoot");
    const { start = 0, end = 0 } = finding?.place.span ?? {};
    const slugsAt = (at: number): string[] => fixesIn(analysis, { start: at, end: at }).map((fix) => fix.finding.slug);
    expect(slugsAt(start)).toContain("reaming-overshoot");
    expect(slugsAt(end)).toContain("reaming-overshoot");
    expect(slugsAt(start - 1)).not.toContain("reaming-overshoot");
    expect(slugsAt(0)).toEqual([]);
  });

  test("what needs a choice is never the preferred one", () => {
    const loose = sampleText("plans/uncertain-limits.isthmus");
    const fixes = fixesIn(analyseText(loose), { start: 0, end: loose.length });
    const choices = fixes.filter((fix) => fix.class === "needs a choice");
    expect(choices.length).toBeGreaterThan(0);
    expect(choices.filter(({ preferred }) => preferred)).toEqual([]);
    expect(fixes.some(({ preferred }) => preferred)).toBe(true);
  });

  test("every edit is one of the text itself", () => {
    for (const { edits } of fixesIn(analysis, { start: 0, end: mistaken.length })) {
      for (const { span } of edits) expect(span.end).toBeLessThanOrEqual(mistaken.length);
      expect(edits.length).toBeGreaterThan(0);
    }
  });
});
