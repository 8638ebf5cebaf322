/** The catalogue of findings: one file a rule, named by its slug, sorted, documented, worded alike. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import type { ProblemSlug } from "../../grammar/problems.ts";
import { rules } from "../../server/findings/all.ts";
import { exampleText } from "../../server/findings/example.ts";
import { limitTable } from "../../server/findings/limit-table.ts";
import { judged } from "./judged.ts";

const folder = fileURLToPath(new URL("../../server/findings", import.meta.url));
const files = readdirSync(folder).filter((file) => file.endsWith(".ts"));
const source = (file: string) => readFileSync(`${folder}/${file}`, "utf8");

const page = readFileSync(`${folder}/FINDINGS.md`, "utf8");

/** Every slug a problem of the text can have; the compiler holds this list to the type. */
const problemSlugs: Readonly<Record<ProblemSlug, true>> = {
  unreadable: true,
  "unknown-word": true,
  misplaced: true,
  missing: true,
  repeated: true,
  "unit-missing": true,
  "unit-mismatch": true,
  "decimal-comma": true,
  "thousands-separator": true,
  "name-unknown": true,
  "name-repeated": true,
  "name-unused": true,
  "scale-missing": true,
  "file-missing": true,
  "file-circular": true,
  "file-outside": true,
  "hidden-character": true,
  "too-deep": true,
  "too-long": true,
  "note-adrift": true,
};

describe("the list of rules", () => {
  const slugs = rules.map((rule) => rule.slug);

  test("holds exactly the files that export a rule", () => {
    const withRule = files.filter((file) => /^export const rule\b/m.test(source(file)));
    expect(slugs).toEqual(withRule.map((file) => file.slice(0, -3)).sort());
    expect(slugs.length).toBeGreaterThan(20);
  });

  test("is sorted and without repetition", () => {
    expect(slugs).toEqual([...new Set(slugs)].sort());
  });

  test("words every problem of the text, and nothing else as one", () => {
    const worded = rules.filter((rule) => rule.kind === "document").map((rule) => rule.slug);
    expect(worded).toEqual(Object.keys(problemSlugs).sort());
  });

  test("uses every limit", () => {
    const used = new Set(rules.flatMap((rule) => (rule.kind === "plan" ? rule.limits : [])));
    expect(limitTable.map((entry) => entry.name).filter((name) => !used.has(name))).toEqual([]);
  });
});

/**
 * Rules whose wrong example points to no other place, and why. A limit that a protocol sets is pointed to where it is set; in the
 * examples most limits are the tool's own and stand in no file.
 */
const pointsNowhere: ReadonlyMap<string, string> = new Map([
  ...[
    "decimal-comma",
    "hidden-character",
    "misplaced",
    "missing",
    "note-adrift",
    "thousands-separator",
    "too-deep",
    "too-long",
    "unit-mismatch",
    "unit-missing",
    "unknown-word",
    "unreadable",
  ].map((slug) => [slug, "the text is wrong at that place alone"] as const),
  ...["file-circular", "file-missing", "file-outside", "name-unknown", "scale-missing"].map(
    (slug) => [slug, "what it names is nowhere to be pointed to"] as const,
  ),
  ...["cap-missing", "notice-missing", "review-missing", "waiver-unexplained", "wire-missing"].map(
    (slug) => [slug, "what is missing stands nowhere"] as const,
  ),
  ...["citation-unused", "name-unused", "screws-unused", "waiver-unused"].map(
    (slug) => [slug, "nothing uses it, so nothing is to be pointed to"] as const,
  ),
  ["range-unreached", "the list it is missing from has no such line"],
  ...["question-unanswered", "question-without-reason"].map(
    (slug) => [slug, "question and answers stand together"] as const,
  ),
  ...["code-old-spelling", "code-unknown", "identifier", "soft-tissue-contradiction", "support-under-knee"].map(
    (slug) => [slug, "one statement says it all"] as const,
  ),
  ["reaming-step", "the heads stand in the one line it is told at"],
  ...["alignment-off", "compartment-low", "dynamise-early", "entry-off", "rotation-off", "shortening-off"].map(
    (slug) => [slug, "a typed value against the tool's own limit"] as const,
  ),
  ["changed-since-review", "the seal is of the whole text"],
  ["one-plane", "the other plane is what is missing"],
]);

test("only these rules point to no other place in their wrong example", () => {
  const alone = rules.filter(({ slug, wrong }) =>
    judged(wrong).judgement.findings.some((finding) => finding.slug === slug && (finding.related ?? []).length === 0),
  );
  expect(alone.map(({ slug }) => slug)).toEqual([...pointsNowhere.keys()].sort());
});

test("a limit that a protocol sets is pointed to where it is set", () => {
  const change = [
    "grade cap-missing warning",
    "limit knee-flexion at-least 130 deg\n  grade cap-missing warning",
  ] as const;
  const [finding] = judged({ change: [change] }).judgement.findings.filter(({ slug }) => slug === "knee-stiff");
  const places = (finding?.related ?? []).map(({ place, message }) => `${place.file}: ${message}`);
  expect(places).toContain("protocol/teaching.isthmus: The protocol sets the limit here.");
});

describe.each(rules.map((rule) => [rule.slug, rule] as const))("%s", (slug, rule) => {
  test("has a slug of plain words", () => {
    expect(slug).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });

  test("has a title that is a heading", () => {
    expect(rule.title).toMatch(/^[A-Z].{8,90}[^.!?]$/);
  });

  test("says in two or three sentences why it matters", () => {
    expect(rule.why).toMatch(/\.$/);
    const sentences = rule.why.split(/(?<=[.;?])\s+(?=[A-Z])/);
    expect(sentences.length).toBeGreaterThanOrEqual(2);
    expect(sentences.length).toBeLessThanOrEqual(3);
  });

  test("names its basis with its mark", () => {
    expect(rule.basis.text.length).toBeGreaterThan(10);
    if (rule.basis.mark === "printed") expect(rule.basis.text).toMatch(/\b(19|20)\d\d\b|CFR/);
    if (rule.basis.mark === "from memory") expect(rule.basis.text).toContain("from memory");
  });

  test("uses limits that exist", () => {
    const names = new Set<string>(limitTable.map((entry) => entry.name));
    const unknown = rule.kind === "plan" ? rule.limits.filter((name) => !names.has(name)) : [];
    expect(unknown).toEqual([]);
  });

  test("has a wrong and a right example that differ", () => {
    expect(exampleText(rule.wrong)).not.toBe("");
    expect(exampleText(rule.right)).not.toBe("");
    expect(rule.wrong).not.toEqual(rule.right);
  });

  test("has its heading and slug on the page of findings", () => {
    expect(page).toContain(`\n### ${rule.title}\n\n\`${slug}\` · ${rule.grade}\n`);
  });

  test("opens its file with what it holds", () => {
    expect(source(`${slug}.ts`)).toMatch(/^\/\*\*\n \* [A-Z]/);
  });

  test("never calls anything safe", () => {
    expect(`${rule.title} ${rule.why} ${rule.basis.text} ${rule.population ?? ""}`).not.toMatch(
      /\b(un)?safe(ly|ty)?\b/i,
    );
  });
});
