/**
 * Faults planted one at a time in every clean sample plan: each has to be found by its own rule at its own line. The table of kinds is
 * kept in tests/baselines/seeded-faults.txt and renewed as the samples' baselines are; new samples change it.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { linesOf } from "../../server/answers/lines.ts";
import type { Finding } from "../../server/findings/finding.ts";
import { analyseText } from "../check.ts";
import { afterKinds, caseKinds, readingKinds } from "./kinds-case.ts";
import { blockKinds, capKinds, nailKinds, orderKinds, reamingKinds } from "./kinds-operation.ts";
import { keptKinds } from "./kinds-record.ts";
import { compressionKinds, dynamiseKinds, screwKinds } from "./kinds-screws.ts";
import { nameKinds, numberKinds, recordKinds, wordKinds } from "./kinds-text.ts";
import { type Kind, type Planted, type Sample, some } from "./planting.ts";

const folder = fileURLToPath(new URL("../../samples/plans/", import.meta.url));

const kinds: readonly Kind[] = [
  ...caseKinds,
  ...readingKinds,
  ...reamingKinds,
  ...nailKinds,
  ...orderKinds,
  ...blockKinds,
  ...screwKinds,
  ...compressionKinds,
  ...dynamiseKinds,
  ...capKinds,
  ...afterKinds,
  ...numberKinds,
  ...wordKinds,
  ...nameKinds,
  ...recordKinds,
  ...keptKinds,
];

/** Plans of the samples without an error or a warning, by file name. */
const samples: readonly Sample[] = readdirSync(folder)
  .filter((name) => name.endsWith(".isthmus"))
  .sort()
  .flatMap((name): readonly Sample[] => {
    const text = readFileSync(folder + name, "utf8");
    const analysis = analyseText(text, name);
    const plan = analysis.meaning.document;
    const clean = analysis.judgement.findings.every(({ grade }) => grade === "information");
    return plan?.kind === "plan" && clean ? [{ name, text, plan, analysis }] : [];
  });

/** Spread over the samples, so that the whole takes a bounded time however many there are. */
const mostOfAKind = 18;

interface Fault {
  readonly sample: Sample;
  readonly fault: Planted;
}

interface Row {
  readonly name: string;
  readonly slugs: readonly string[];
  readonly samples: number;
  readonly found: number;
  readonly planted: number;
  readonly unchanged: number;
  readonly possible: number;
  readonly sound: ReadonlyMap<string, number>;
  readonly missed: readonly string[];
}

function sow(kind: Kind): Row {
  const all = new Map<string, Fault>();
  const sound = new Map<string, number>();
  for (const sample of samples) {
    for (const attempt of kind.plant(sample)) {
      if (attempt === undefined) continue;
      if ("text" in attempt) all.set(attempt.text, { sample, fault: attempt });
      else sound.set(attempt.soundBecause, (sound.get(attempt.soundBecause) ?? 0) + 1);
    }
  }
  const faults = some([...all.values()], mostOfAKind);
  const missed = faults.flatMap((each) => missedIn(kind, each) ?? []);
  return {
    name: kind.name,
    slugs: kind.slugs,
    samples: new Set(faults.map(({ sample }) => sample)).size,
    planted: faults.length,
    possible: all.size,
    found: faults.length - missed.length,
    unchanged: faults.filter(({ sample, fault }) => fault.text === sample.text).length,
    sound,
    missed,
  };
}

/** What was found instead; undefined when the fault was found. */
function missedIn(kind: Kind, { sample, fault }: Fault): string | undefined {
  const { findings } = analyseText(fault.text, sample.name).judgement;
  return isFound(sample, kind, fault, findings) ? undefined : told(sample, fault, findings);
}

/** What the clean sample says already does not count. */
function isFound(sample: Sample, { slugs }: Kind, { text, line }: Planted, findings: readonly Finding[]): boolean {
  const lines = linesOf(text);
  const said = new Set(sample.analysis.judgement.findings.map(({ slug, message }) => `${slug} ${message}`));
  return findings.some(
    ({ slug, place, message }) =>
      slugs.includes(slug) && lines.position(place.span.start).line === line && !said.has(`${slug} ${message}`),
  );
}

function told({ name }: Sample, { text, line }: Planted, findings: readonly Finding[]): string {
  const lines = linesOf(text);
  const list = findings.map(({ slug, place }) => `${slug} at ${lines.position(place.span.start).line + 1}`);
  return `${name}:${line + 1} "${lines.text(line).trim()}" → ${list.join(", ") || "nothing"}`;
}

const rows = kinds.map(sow);
const planted = rows.reduce((sum, row) => sum + row.planted, 0);
const found = rows.reduce((sum, row) => sum + row.found, 0);

function table(): string {
  const lines = rows.map(({ name, slugs, samples: of, planted: all, possible, found: so, sound, missed }) => {
    const skipped = [...sound].map(([because, count]) => `  not planted ${count} times: ${because}`);
    return [
      `${`${so}/${all}`.padStart(9)}  ${`${of}`.padStart(2)} plans, of ${`${possible}`.padStart(3)}  ${name}: ${slugs.join(" or ")}`,
      ...skipped,
      ...missed.map((each) => `  MISSED ${each}`),
    ].join("\n");
  });
  const share = Math.floor((found / planted) * 10_000) / 100;
  return [
    "Faults planted one at a time in the clean sample plans, found by their own rule at their own line.",
    `${kinds.length} kinds, ${planted} faults in ${samples.length} plans, ${found} found (${share} %).`,
    "",
    ...lines,
    "",
  ].join("\n");
}

test("the table of kinds is the one kept", async () => {
  process.stdout.write(`${table()}\n`);
  await expect(table()).toMatchFileSnapshot("../baselines/seeded-faults.txt");
});

test("enough kinds and enough faults are planted", () => {
  expect(samples.length).toBeGreaterThanOrEqual(4);
  expect(new Set(kinds.map(({ name }) => name)).size).toBe(kinds.length);
  expect(kinds.length).toBeGreaterThanOrEqual(60);
  expect(planted).toBeGreaterThanOrEqual(1_000);
});

test("99 of 100 are found at least", () => {
  const missed = rows.flatMap(({ name, missed: each }) => each.map((one) => `${name}: ${one}`));
  expect(found / planted, missed.join("\n")).toBeGreaterThanOrEqual(0.99);
});

describe.each(rows.map((row) => [row.name, row] as const))("%s", (_, row) => {
  test("is planted somewhere, and changes the text each time", () => {
    expect(row.planted).toBeGreaterThan(0);
    expect(row.unchanged).toBe(0);
  });

  test("is no kind that is missed as a whole", () => {
    expect(row.found, row.missed.join("\n")).toBeGreaterThan(0);
  });
});
