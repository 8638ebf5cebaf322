/**
 * All that each rule says of its own examples and of those of every other rule, and what a rule over plans says of its own wrong example
 * with one line after the other left out, written down in files a reader can follow: message, place, grade, figures, other places,
 * fixes, and why it cannot tell. What has been told in other numbers is not told again.
 */
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type Parsed, parse } from "../../grammar/parse.ts";
import type { Edit } from "../../grammar/problems.ts";
import { rules } from "../../server/findings/all.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import type { Example, Finding, Found, Rule, Verdict } from "../../server/findings/finding.ts";
import { judge } from "../../server/findings/judge.ts";
import { subjectsOf } from "../../server/findings/running.ts";
import type { Library } from "../../server/meaning/library.ts";
import type { Place } from "../../server/meaning/plan.ts";
import { type Meaning, understand } from "../../server/meaning/understand.ts";
import { print } from "../../server/quantity/print.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import { keeps, shapeOf, withoutEachLine } from "../told-text.ts";

const kept = (file: string): string => join(import.meta.dirname, `told/${file}.txt`);

/** A text as the rules look at it. */
interface Read {
  readonly name: string;
  readonly parsed: Parsed;
  readonly meaning: Meaning;
}

function read(name: string, file: string, text: string, library: Library): Read {
  const parsed = parse(text);
  return { name, parsed, meaning: understand(parsed, file, library) };
}

/** Made when first asked for, and let go with its text: which rule a test is about changes nothing in it. */
function once<Made>(make: (of: Read) => Made): (of: Read) => Made {
  const made = new WeakMap<Read, Made>();
  return (of) => {
    const known = made.get(of) ?? make(of);
    made.set(of, known);
    return known;
  };
}

/** Each example of every rule once. */
function allExamples(): readonly Read[] {
  const seen = new Set<string>();
  return rules.flatMap((rule) =>
    (["wrong", "right"] as const).flatMap((side) => {
      const { file, text, library } = exampleDocument(rule[side]);
      const key = JSON.stringify(rule[side]);
      if (seen.has(key)) return [];
      seen.add(key);
      return [read(`${rule.slug}, ${side}`, file, text, library)];
    }),
  );
}

let examples: readonly Read[] = [];

function withoutLines(example: Example): readonly Read[] {
  const { file, text, library } = exampleDocument(example);
  return withoutEachLine(text).map(([said, less]) => read(`without \`${said}\``, file, less, library));
}

const subjectsIn = once(({ meaning: { document }, parsed }: Read) =>
  document?.kind === "plan" ? subjectsOf(document, parsed.text, reckon(document)) : undefined,
);

const judgementOf = once(({ parsed, meaning }: Read) =>
  judge({ parsed, meaning, reckonings: meaning.document?.kind === "plan" ? reckon(meaning.document) : undefined }),
);

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
function saidOf(rule: Rule, texts: readonly Read[]): readonly string[] {
  const seen = new Set<string>();
  return texts.flatMap((each) => {
    const rows = told(rule, each);
    const fresh = rows.some((row) => !seen.has(shapeOf(row)));
    for (const row of rows) seen.add(shapeOf(row));
    return fresh ? [`${each.name}\n${rows.map((row) => `  ${row}\n`).join("")}`] : [];
  });
}

describe.each(rules.map((rule) => ({ slug: rule.slug, rule })))("$slug", ({ slug, rule }) => {
  test("what is said of its own examples", async () => {
    const { file, text, library } = exampleDocument(rule.wrong);
    const right = exampleDocument(rule.right);
    const own = [read("wrong", file, text, library), read("right", right.file, right.text, right.library)];
    const said = saidOf(rule, [...own, ...(rule.kind === "plan" ? withoutLines(rule.wrong) : [])]);
    expect(said[0]).toMatch(/^wrong\n/);
    await keeps(said.join("\n"), kept(slug));
  });

  test("what is said of the examples of other rules", async () => {
    if (examples.length === 0) examples = allExamples();
    const others = examples.filter(({ name }) => !name.startsWith(`${slug}, `));
    expect(others.length).toBeGreaterThan(100);
    await keeps(saidOf(rule, others).join("\n") || "nothing\n", kept(`elsewhere/${slug}`));
  });
});
