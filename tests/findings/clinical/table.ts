/**
 * Tables of changes of the sample plan and what one rule says about each. Every other rule must stay as it was with the plan unchanged,
 * so that one mistake is seen to give one finding. Not a test itself.
 */
import { expect, test } from "vitest";
import { type Analysis, analyse } from "../../../server/answers/analyse.ts";
import { rules } from "../../../server/findings/all.ts";
import { exampleDocument } from "../../../server/findings/example.ts";
import type { Finding, Fix, Grade, PlanRule, Subject, Verdict } from "../../../server/findings/finding.ts";
import { limitsOf } from "../../../server/findings/limits.ts";
import { changed, findingsOf, marked, outcomeOf } from "../judged.ts";

export type Change = readonly [from: string, to: string];

/** The sample leaves the gap open: a remark at `compress 2 turns`, whatever else is changed. */
const remarkOfTheSample = "compression-past-gap";

export interface Case {
  readonly what: string;
  readonly change: readonly Change[];
  readonly is: "clear" | "cannot tell" | Grade;
  /** The words marked. */
  readonly at?: string;
  readonly says?: string | RegExp;
  /** Other findings that the change brings of its own accord; none when left out. */
  readonly besides?: readonly string[];
  /** How many findings of the rule; one when left out. */
  readonly count?: number;
}

/** One test a row. */
export function checkTable(slug: string, cases: readonly Case[]): void {
  test.each(cases.map((row) => [`${row.is}: ${row.what}`, row] as const))(`${slug} · %s`, (_, row) => {
    const analysis = changed(...row.change);
    const { findings } = analysis.judgement;
    const own = findingsOf(analysis, slug);
    const others = findings.map((each) => each.slug).filter((each) => each !== slug && each !== remarkOfTheSample);
    expect([...new Set(others)].sort(), findings.map(told).join("\n")).toEqual([...(row.besides ?? [])].sort());
    if (row.is === "clear" || row.is === "cannot tell") {
      expect(own.map(told)).toEqual([]);
      expect(outcomeOf(analysis, slug)).toBe(row.is);
      return;
    }
    expect(own.map((each) => each.grade)).toEqual(Array.from({ length: row.count ?? 1 }, () => row.is));
    const [first] = own;
    if (row.at !== undefined) expect(marked(analysis, first)).toBe(row.at);
    if (row.says !== undefined) expect(first?.message).toMatch(row.says);
  });
}

/** The titles of a rule's fixes for a change of the sample, those of all its findings. */
export function titlesOf(slug: string, ...change: readonly Change[]): readonly string[] {
  return findingsOf(changed(...change), slug).flatMap((found) => (found.fixes ?? []).map((fix) => fix.title));
}

/** The sample changed, then mended with the fix of that title; the analysis of the mended text. */
export function mended(slug: string, change: readonly Change[], title?: string): Analysis {
  const analysis = changed(...change);
  const fixes = findingsOf(analysis, slug).flatMap((found) => found.fixes ?? []);
  const fix = title === undefined ? fixes[0] : fixes.find((each) => each.title === title);
  expect(fix, `a fix of ${slug}: ${fixes.map((each) => each.title).join(" | ")}`).toBeDefined();
  const { file, library } = exampleDocument({ change });
  return analyse(file, fix === undefined ? analysis.text : applied(analysis.text, fix), library);
}

export function applied(text: string, { edits }: Fix): string {
  const from = [...edits].map((edit, order) => ({ edit, order }));
  from.sort((a, b) => b.edit.span.start - a.edit.span.start || b.order - a.order);
  return from.reduce((so, { edit }) => so.slice(0, edit.span.start) + edit.text + so.slice(edit.span.end), text);
}

export function planRule(slug: string): PlanRule {
  const rule = rules.find((each) => each.slug === slug);
  if (rule?.kind !== "plan") throw new Error(`no rule over plans is called ${slug}`);
  return rule;
}

/** Everything found but the sample's own remark. */
export function beyondSample(analysis: Analysis): readonly string[] {
  return analysis.judgement.findings.filter((each) => each.slug !== remarkOfTheSample).map((each) => each.slug);
}

/** What a rule looks at in the changed sample, past all that is told of its text. */
export function subjectOf(change: readonly Change[]): Subject {
  const { meaning, reckonings, text } = changed(...change);
  if (meaning.document?.kind !== "plan" || reckonings === undefined) throw new Error("the change leaves no plan");
  return { plan: meaning.document, text, reckonings, limits: limitsOf([]) };
}

/** What a rule says by itself of the changed sample, past all that is told of its text. */
export function asked(slug: string, change: readonly Change[]): Verdict {
  return planRule(slug).check(subjectOf(change));
}

export function told({ grade, slug, message }: Finding): string {
  return `${grade} ${slug}: ${message}`;
}
