/**
 * All that each rule says of its own examples, of those of every other rule and of a table of cases, and what a rule over plans says of
 * its own wrong example with one line after the other left out, written down in files a reader can follow: message, place, grade,
 * figures, other places, fixes, and why it cannot tell. What has been told in other numbers is not told again.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { onceForEach } from "../../grammar/once.ts";
import type { Edit } from "../../grammar/problems.ts";
import { findingSection } from "../../server/answers/reference.ts";
import type { Understood } from "../../server/answers/understood.ts";
import { rules } from "../../server/findings/all.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import type { Example, Finding, Found, Rule, Verdict } from "../../server/findings/finding.ts";
import { judge } from "../../server/findings/judge.ts";
import { subjectsOf } from "../../server/findings/running.ts";
import type { Library } from "../../server/meaning/library.ts";
import type { Place } from "../../server/meaning/plan.ts";
import { print } from "../../server/quantity/print.ts";
import { keeps, shapeOf, withoutEachLine } from "../told-text.ts";
import { understoodOnce } from "../understood.ts";
import { exampleReads } from "./judged.ts";
import { variants } from "./variants.ts";

const page = readFileSync(join(import.meta.dirname, "../../server/findings/FINDINGS.md"), "utf8");
const kept = (file: string): string => join(import.meta.dirname, `told/${file}.txt`);

/** A text as the rules look at it. */
interface Read extends Understood {
  readonly name: string;
}

function read(name: string, file: string, text: string, library: Library): Read {
  return { name, ...understoodOnce(file, text, library, exampleReads) };
}

/** Each example of every other rule once. */
function* examplesOfOthers(than: Rule): Generator<Read> {
  const seen = new Set<string>();
  for (const rule of rules)
    for (const side of ["wrong", "right"] as const) {
      const key = JSON.stringify(rule[side]);
      if (seen.has(key)) continue;
      seen.add(key);
      if (rule.slug !== than.slug) yield example(`${rule.slug}, ${side}`, rule[side]);
    }
}

function* variantTexts(): Generator<Read> {
  for (const [name, change] of variants) yield example(name, { change });
}

const made = new Map<string, Read>();

function example(name: string, of: Example): Read {
  const known = made.get(name);
  if (known !== undefined) return known;
  const { file, text, library } = exampleDocument(of);
  const fresh = read(name, file, text, library);
  made.set(name, fresh);
  return fresh;
}

/** A rule's wrong and right examples, and the wrong one of a rule over plans with one line after the other left out. */
function* ownTexts(rule: Rule): Generator<Read> {
  for (const side of ["wrong", "right"] as const) {
    const { file, text, library } = exampleDocument(rule[side]);
    yield read(side, file, text, library);
  }
  if (rule.kind !== "plan") return;
  const { file, text, library } = exampleDocument(rule.wrong);
  for (const [said, less] of withoutEachLine(text)) yield read(`without \`${said}\``, file, less, library);
}

// Which rule a test is about changes nothing in a text.
const subjectsIn = onceForEach(({ meaning: { document }, parsed, reckonings }: Read) =>
  document?.kind === "plan" && reckonings !== undefined ? subjectsOf(document, parsed.text, reckonings) : undefined,
);

const judgementOf = onceForEach((of: Read) => judge(of));

type Shown = Found | Finding;
const silent: Verdict = { found: [] };

/** What the rule's own check brings; a rule of problems and of findings is asked through the judgement. */
function verdictOf(rule: Rule, of: Read): { readonly found: readonly Shown[]; readonly untold?: readonly string[] } {
  const { document } = of.meaning;
  const subjects = subjectsIn(of);
  if (rule.kind === "document" || rule.kind === "record")
    return { found: judgementOf(of).findings.filter(({ slug }) => slug === rule.slug) };
  if (rule.kind === "text")
    return document === undefined ? silent : rule.check(document, of.parsed.text, of.parsed.tree);
  if (subjects === undefined) return silent;
  const verdicts = [subjects.main, ...subjects.laid.map(({ subject }) => subject)].map((each) => rule.check(each));
  return {
    found: verdicts.flatMap(({ found }) => found),
    untold: verdicts.flatMap(({ untold }) => untold ?? []),
  };
}

/** As a reader would see it, each only once: a fallback brings again most of what the plan itself brings. */
function told(rule: Rule, of: Read): readonly string[] {
  const { found, untold = [] } = verdictOf(rule, of);
  const own = of.meaning.document?.file;
  const at = ({ file, span }: Place): string =>
    own === undefined || file === own ? cited(of.parsed.text.slice(span.start, span.end)) : cited(file);
  const edited = ({ span, text }: Edit): string =>
    `${cited(of.parsed.text.slice(span.start, span.end))} → ${cited(text)}`;
  const findings = found.map((each) =>
    [
      `${each.grade ?? rule.grade} at ${at(each.place)}: ${each.message}`,
      `  ${[...figures(each), `about ${each.at ?? "nothing by name"}`].join(", ")}`,
      ...(each.related ?? []).map(({ place, message }) => `  see ${at(place)}: ${message}`),
      ...(each.fixes ?? []).flatMap((fix) => [
        `  fix, ${fix.class}: ${fix.title}`,
        ...fix.edits.map((edit) => `    ${edited(edit)}`),
      ]),
    ].join("\n  "),
  );
  return [...new Set([...findings, ...untold.map((because) => `cannot tell: ${because}`)])];
}

function cited(text: string): string {
  const line = text.replaceAll("\n", "⏎");
  return line.length > 120 ? `\`${line.slice(0, 60)} … ${line.slice(-40)}\` (${line.length})` : `\`${line}\``;
}

function figures({ value, limit, margin, unit = "1", probability }: Shown): readonly string[] {
  const named = Object.entries({ value, limit, margin }).flatMap(([name, quantity]) =>
    quantity === undefined ? [] : [`${name} ${quantity.kind === "known" ? print(quantity, unit) : "unknown"}`],
  );
  return [...named, ...(probability === undefined ? [] : [`probability ${probability.toPrecision(3)}`])];
}

/** What is said of each text, where it has not been said in other numbers of one before. */
function* saidOf(rule: Rule, texts: Iterable<Read>): Generator<string> {
  const seen = new Set<string>();
  for (const each of texts) {
    const rows = told(rule, each);
    const fresh = rows.some((row) => !seen.has(shapeOf(row)));
    for (const row of rows) seen.add(shapeOf(row));
    if (fresh) yield `${each.name}\n${rows.map((row) => `  ${row}\n`).join("")}`;
  }
}

function* before(first: string, rest: Iterable<string>): Generator<string> {
  yield first;
  yield* rest;
}

describe.each(rules.map((rule) => ({ slug: rule.slug, rule })))("$slug", ({ slug, rule }) => {
  test("what the page of findings says of it", () => {
    expect(page).toContain(findingSection(rule));
  });

  test("what is said of its own examples", async () => {
    const said = saidOf(rule, ownTexts(rule));
    const first: string = said.next().value ?? "";
    expect(first).toMatch(/^wrong\n/);
    await keeps(before(first, said), kept(slug));
  });

  test("what is said of cases a surgeon may write", async () => {
    await keeps(saidOf(rule, variantTexts()), kept(`cases/${slug}`));
  });

  test("what is said of the examples of other rules", async () => {
    expect([...examplesOfOthers(rule)].length).toBeGreaterThan(100);
    await keeps(saidOf(rule, examplesOfOthers(rule)), kept(`elsewhere/${slug}`));
  });
});
