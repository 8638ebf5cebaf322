/**
 * 50,000 generated and mutated texts through the whole road (`ISTHMUS_FUZZ_TEXTS`; `.ci/run` asks for 200,000). Nothing throws, nothing
 * takes a second, a text with an error in it is never called clear, and layout keeps what it may lay out. A text that fails is kept in
 * fixtures/ and tried first from then on.
 */
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { layout } from "../../grammar/layout.ts";
import { type Parsed, parse } from "../../grammar/parse.ts";
import { rules } from "../../server/findings/all.ts";
import { analyseText, sampleText } from "../check.ts";
import { type Chance, chance } from "./chance.ts";
import { document, mutated, noise } from "./generate.ts";

const fixtures = fileURLToPath(new URL("fixtures/", import.meta.url));
const seed = Number(process.env.ISTHMUS_FUZZ_SEED ?? "20260302");
const texts = Number(process.env.ISTHMUS_FUZZ_TEXTS ?? "50000");
const longest = 1000;

const samples = ["simple-shaft", "typical-mistakes", "distal-third", "uncertain-limits"].map((name) =>
  sampleText(`plans/${name}.isthmus`),
);
const catalogue = sampleText("catalogue/tarnbeck.isthmus");
const shortPlan = `isthmus 1

plan "short" {
  use "../catalogue/tarnbeck.isthmus"
  case X1 {
    side left
    bone tibia
    fracture 42A2, from 208 mm on ap to 232 mm on ap, gap 3 mm
  }
  images {
    view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm
  }
  measures {
    landmark scar 416 mm ± 2 mm on ap
    canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm
  }
  operation {
    wire ball-tip
    ream 8.5 mm to 11 mm by 0.5 mm
    nail tarnbeck, diameter 10 mm, length 345 mm, sunk 8 mm
    lock D1, drilled 33 mm, screw 34 mm
  }
}
`;

const planRules = rules.filter(({ kind }) => kind === "plan").map(({ slug }) => slug);

/** What is wrong with how the tool takes this text; undefined when nothing is. */
function fault(text: string): string | undefined {
  let [analysis, took] = [undefined as ReturnType<typeof analyseText> | undefined, longest + 1];
  // A busy machine may stop any one of them for a while: slow is what is slow twice.
  for (let tries = 0; tries < 2 && took > longest; tries += 1) {
    const started = performance.now();
    try {
      analysis = analyseText(text);
    } catch (thrown) {
      return `threw ${thrown instanceof Error ? thrown.stack : String(thrown)}`;
    }
    took = performance.now() - started;
  }
  if (analysis === undefined || took > longest) return `took ${took} ms`;
  const { parsed, meaning, judgement } = analysis;
  const errors = judgement.findings.filter(({ grade }) => grade === "error");
  const broken = [...parsed.problems, ...meaning.problems].filter(
    ({ mild, slug }) => mild !== true && slug !== "name-unused" && slug !== "note-adrift",
  );
  if (broken.length > 0 && judgement.findings.length === 0) return `said nothing of ${broken[0]?.slug}`;
  const documentErrors = errors.filter(({ slug }) => parsed.problems.some((problem) => problem.slug === slug));
  if (documentErrors.length > 0) {
    const clear = planRules.filter((slug) => judgement.outcomes.get(slug)?.outcome === "clear");
    if (clear.length > 0) return `called ${clear[0]} clear in a text with ${documentErrors[0]?.slug}`;
  }
  if (
    judgement.findings.some(
      ({ place: { span } }) => !(0 <= span.start && span.start <= span.end && span.end <= text.length),
    )
  ) {
    return "a finding lies outside the text";
  }
  for (const { id, answer } of analysis.reckonings?.list ?? []) {
    if (answer.kind === "known" && !Number.isFinite(answer.value)) return `${id} is ${answer.value}`;
  }
  return layoutFault(parsed);
}

function layoutFault(parsed: Parsed): string | undefined {
  const laidOut = layout(parsed);
  if (laidOut === undefined) return undefined;
  const again = layout(parse(laidOut));
  return again === laidOut ? undefined : "laid out twice it changes";
}

/** A known error put into a sound text must be found, whatever else is there. */
const plantings: readonly (readonly [name: string, plant: (source: string, chance: Chance) => string])[] = [
  ["an unknown word", (source, at) => atLine(source, at, "  qqzzy 5 mm")],
  ["a sign that means nothing", (source, at) => atLine(source, at, "  @@@")],
  ["a decimal comma", (source) => source.replace("landmark scar 416", "landmark scar 41,6")],
  ["a missing closing brace", (source) => source.replace(/\}\n$/, "")],
  ["a missing unit", (source) => source.replace("length 345 mm", "length 345")],
  ["an open text", (source) => source.replace('"short"', '"short')],
];

function atLine(source: string, { whole }: Chance, line: string): string {
  const lines = source.split("\n");
  const at = 3 + whole(lines.length - 5);
  return [...lines.slice(0, at), line, ...lines.slice(at)].join("\n");
}

function keep(text: string): string {
  mkdirSync(fixtures, { recursive: true });
  const file = `${fixtures}${createHash("sha256").update(text).digest("hex").slice(0, 16)}.txt`;
  writeFileSync(file, text);
  return file;
}

describe("fuzz", () => {
  test("texts that once failed", () => {
    // A fresh clone has no empty folder.
    mkdirSync(fixtures, { recursive: true });
    const kept = readdirSync(fixtures).filter((name) => name.endsWith(".txt"));
    const failures = kept.flatMap((name) => {
      const found = fault(readFileSync(fixtures + name, "utf8"));
      return found === undefined ? [] : [`${name}: ${found}`];
    });
    expect(failures).toEqual([]);
  });

  test("the sound texts the mutations start from are sound", () => {
    expect(fault(shortPlan)).toBeUndefined();
    expect(analyseText(shortPlan).parsed.problems).toEqual([]);
    for (const sample of [...samples, catalogue]) expect(fault(sample)).toBeUndefined();
  });

  test(`${texts} texts, seed ${seed}`, { timeout: 60_000 + 18 * texts }, () => {
    console.log(`fuzz: seed ${seed}, ${texts} texts (ISTHMUS_FUZZ_SEED and ISTHMUS_FUZZ_TEXTS change them)`);
    const failures: string[] = [];
    for (let at = 0; at < texts && failures.length < 5; at += 1) {
      const draw = chance(seed + at);
      const text = fuzzText(draw, at);
      const found = fault(text);
      if (found !== undefined) failures.push(`text ${at}: ${found}\nkept as ${keep(text)}`);
    }
    expect(failures).toEqual([]);
  });

  test.each(plantings)("%s is never overlooked", (_name, plant) => {
    for (let at = 0; at < 200; at += 1) {
      const text = plant(shortPlan, chance(seed + at));
      expect(text).not.toBe(shortPlan);
      const { findings } = analyseText(text).judgement;
      expect(findings.filter(({ grade }) => grade === "error").length, text).toBeGreaterThan(0);
    }
  });
});

function fuzzText(draw: Chance, at: number): string {
  switch (at % 10) {
    case 0:
      return document(draw);
    case 1:
      return mutated(draw, document(draw));
    case 2:
      return noise(draw);
    case 3:
      return mutated(draw, draw.pick(samples));
    case 4:
      return mutated(draw, catalogue);
    default:
      return mutated(draw, shortPlan);
  }
}
