/** Every rule's own examples: the wrong one has its finding, the right one does not and has no error of any kind. */
import { describe, expect, test } from "vitest";
import { analyse } from "../../server/answers/analyse.ts";
import { rules } from "../../server/findings/all.ts";
import { exampleCatalogue, exampleDocument, exampleProtocol } from "../../server/findings/example.ts";
import type { Finding, Fix } from "../../server/findings/finding.ts";
import { changed, findingsOf, judged, outcomeOf } from "./judged.ts";

function told(finding: Finding): string {
  return `${finding.grade} ${finding.slug}: ${finding.message}`;
}

describe("the sample plan", () => {
  // 3 mm ± 1 mm of gap less 2.5 mm of compression: 0.5 mm ± 1.0 mm is below 0 with a probability of 15.9 %.
  const remark = ["compression-past-gap"];

  test("has one remark, on what its readings leave open", () => {
    const { findings } = changed().judgement;
    expect(findings.map((each) => each.slug)).toEqual(remark);
    expect(findings[0]).toMatchObject({ grade: "information" });
    expect(findings[0]?.message).toMatch(/\bmay\b.*\(probability 16 %\)\.$/);
  });

  test("leaves every other rule clear", () => {
    const open = [...changed().judgement.outcomes].filter(([, { outcome }]) => outcome !== "clear");
    expect(open.map(([slug]) => slug)).toEqual(remark);
  });

  test.each([
    ["catalogue", exampleCatalogue],
    ["protocol", exampleProtocol],
  ])("its %s has no finding", (_, text) => {
    expect(judged({ text }).judgement.findings.map(told)).toEqual([]);
  });

  test("says that it is invented", () => {
    const texts = [exampleDocument({ change: [] }).text, exampleCatalogue, exampleProtocol];
    for (const text of texts) expect(text.toLowerCase()).toContain("invented");
  });

  test("a change that does not find its words is a mistake", () => {
    expect(() => exampleDocument({ change: [["no such words", ""]] })).toThrow("stand nowhere");
    expect(() => exampleDocument({ change: [["lock", ""]] })).toThrow("more than once");
  });
});

describe.each(rules.map((rule) => [rule.slug, rule] as const))("%s", (slug, rule) => {
  test("is found in its wrong example", () => {
    const analysis = judged(rule.wrong);
    expect(findingsOf(analysis, slug).map(told), analysis.judgement.findings.map(told).join("\n")).not.toEqual([]);
    expect(outcomeOf(analysis, slug)).toBe("found");
  });

  test("is not found in its right example, which has no error", () => {
    const analysis = judged(rule.right);
    expect(findingsOf(analysis, slug).map(told)).toEqual([]);
    expect(analysis.judgement.findings.filter((finding) => finding.grade === "error").map(told)).toEqual([]);
    expect(outcomeOf(analysis, slug)).toBe("clear");
  });

  test("speaks in sentences and calls nothing safe", () => {
    for (const finding of [...judged(rule.wrong).judgement.findings, ...judged(rule.right).judgement.findings]) {
      expect(finding.message).toMatch(/^[^a-z].*[^.]\.$/su);
      expect(finding.message).not.toContain("\n");
      if (finding.slug.includes("-")) expect(finding.message).not.toContain(finding.slug);
      expect(finding.message).not.toMatch(/\b(un)?safe(ly|ty)?\b|NaN|Infinity|undefined|\[object/i);
      for (const { message } of finding.related ?? []) expect(message).toMatch(/\.$/);
      for (const { title } of finding.fixes ?? []) expect(title).toMatch(/[^.]$/);
    }
  });

  test("is taken away by each of its fixes", () => {
    const analysis = judged(rule.wrong);
    const { file, library } = exampleDocument(rule.wrong);
    for (const finding of findingsOf(analysis, slug)) {
      for (const fix of finding.fixes ?? []) {
        const after = analyse(file, withFix(analysis.text, fix), library);
        const still = findingsOf(after, slug).map(told);
        if (!leavesWork.has(slug)) expect(still, `${fix.title}\n${after.text}`).not.toContain(told(finding));
        expect(after.text, fix.title).not.toBe(analysis.text);
      }
    }
  });
});

/** Their fix is a place to write in; only a person can fill it. */
const leavesWork = new Set(["notice-missing"]);

function withFix(text: string, fix: Fix): string {
  const edits = [...fix.edits].sort((a, b) => b.span.start - a.span.start);
  return edits.reduce(
    (before, { span, text: put }) => before.slice(0, span.start) + put + before.slice(span.end),
    text,
  );
}
