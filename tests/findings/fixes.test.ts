/**
 * Every fix of every rule's wrong example and of every sample with mistakes: applied, it takes its finding away and brings no error,
 * touches no line it does not tell of, and the numbers of its title are those reckoned afterwards.
 */
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { type Analysis, analyse } from "../../server/answers/analyse.ts";
import { answerText } from "../../server/answers/wording.ts";
import { rules } from "../../server/findings/all.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import type { Finding, Fix } from "../../server/findings/finding.ts";
import { valueIn } from "../../server/quantity/arithmetic.ts";
import { analyseText, applied, sampleText } from "../check.ts";
import { judged } from "./judged.ts";

interface Case {
  readonly before: Analysis;
  readonly finding: Finding;
  readonly fix: Fix;
  readonly mended: () => Analysis;
}

/** Their fix is a place to write in; only a person can fill it. */
const leavesWork = new Set(["notice-missing"]);

const mistaken = readdirSync(fileURLToPath(new URL("../../samples/plans", import.meta.url))).filter((file) =>
  file.includes("mistakes"),
);

const cases: readonly (readonly [string, Case])[] = [
  ...rules.flatMap(({ slug, wrong }) => {
    const { file, library } = exampleDocument(wrong);
    const before = judged(wrong);
    return casesOf(before, (text) => analyse(file, text, library)).filter(([, { finding }]) => finding.slug === slug);
  }),
  ...mistaken.flatMap((name) => {
    const before = analyseText(sampleText(`plans/${name}`), name);
    return casesOf(before, (text) => analyseText(text, name), `${name}: `);
  }),
];

function casesOf(before: Analysis, again: (text: string) => Analysis, where = ""): (readonly [string, Case])[] {
  return before.judgement.findings.flatMap((finding) =>
    (finding.fixes ?? []).map((fix) => {
      let made: Analysis | undefined;
      const mended = (): Analysis => {
        made ??= again(applied(before.text, fix.edits));
        return made;
      };
      return [`${where}${finding.slug}: ${fix.title}`, { before, finding, fix, mended }] as const;
    }),
  );
}

test("there are fixes of many rules and samples", () => {
  expect(new Set(cases.map(([, { finding }]) => finding.slug)).size).toBeGreaterThan(50);
  expect(mistaken.length).toBeGreaterThan(2);
});

describe.each(cases)("%s", (_, { before, finding, fix, mended }) => {
  test("takes its finding away and brings no error", () => {
    if (!leavesWork.has(finding.slug)) {
      expect(mended().judgement.findings.map(identity)).not.toContain(identity(finding));
    }
    const errors = countErrors(before);
    for (const [slug, count] of countErrors(mended())) {
      expect(count, `${slug}\n${mended().text}`).toBeLessThanOrEqual(errors.get(slug) ?? 0);
    }
  });

  test("touches no line it does not tell of", () => {
    const { gone, come } = lineChanges(before.text, mended().text);
    if (gone.length === 0 && come.length === 0) {
      expect(fix.title).toMatch(/\b(before|after|at the end)\b/);
      expect(sorted(mended().text)).toEqual(sorted(before.text));
      return;
    }
    expect(gone.length).toBeLessThanOrEqual(linesOf(finding, before));
    expect(come.length).toBeLessThanOrEqual(2);
    expect(without(mended().text, come)).toEqual(without(before.text, gone));
    for (const [, written = ""] of fix.title.matchAll(/put in `([^`]+)`/g)) expect(come.join("\n")).toContain(written);
  });

  test("keeps every step and every number where it says that it keeps every decision", () => {
    if (fix.class !== "keeps every decision") return;
    expect(numbersOf(mended())).toEqual(numbersOf(before));
  });

  test("writes what stands behind its arrow", () => {
    const [from, to] = fix.title.split(/, as listed|, which hole|: /)[0]?.split(" → ") ?? [];
    if (from === undefined || to === undefined) return;
    const { gone, come } = lineChanges(before.text, mended().text);
    const [was, is] = [gone.join("\n"), come.join("\n")];
    // A number of heads is written as a range, and counted below.
    if (to.endsWith(" heads")) return;
    expect(was).toContain(from.split(" ").at(-1));
    expect(is).toContain(to.split(" ")[0]);
  });

  test("tells the numbers that are reckoned afterwards", () => {
    const [, tail] = /: (.*\d.*)$/.exec(fix.title) ?? [];
    if (tail === undefined || finding.slug === "code-old-spelling") return;
    const row = tails.find(([pattern]) => pattern.test(tail));
    expect(row, `a row for "${tail}" is missing`).toBeDefined();
    const told = row?.[0].exec(tail)?.slice(1) ?? [];
    expect(told, mended().text).toEqual(row?.[1](mended(), before, finding));
  });
});

type Expected = (after: Analysis, before: Analysis, finding: Finding) => readonly string[];

/** What the end of a title says, and where the same is reckoned; a title with numbers and no row here fails. */
const tails: readonly (readonly [RegExp, Expected])[] = [
  [/^top (.+) below the bone$/, (after) => [answer(after, "cap.top")]],
  [/^(.+) of .+ travel$/, (after) => [toHundredths(after, "compression.amount")]],
  [/^(.+) into a gap of (.+)$/, (after) => [toHundredths(after, "compression.amount"), gapOf(after)]],
  [/^(.+) deeper$/, (after, before) => [`${millimetres(after, "nail.top") - millimetres(before, "nail.top")} mm`]],
  [/^(.+) less deep$/, (after, before) => [`${millimetres(before, "nail.top") - millimetres(after, "nail.top")} mm`]],
  [/^tip (.+) short of the scar$/, (after) => [nominal(answer(after, "tip.toScar"))]],
  [/^tip (.+) short of the plafond$/, (after) => [nominal(answer(after, "tip.toPlafond"))]],
  [/^(.+) of room left$/, (after) => [answer(after, "length.margin")]],
  [/^(.+) over the nail$/, (after) => [answer(after, "ream.over")]],
  [/^no step above (.+)$/, (after) => [answer(after, "ream.step")]],
  [/^the isthmus is (.+)$/, (after) => [answer(after, "canal.isthmus")]],
  [/^tip (.+) past the cortex$/, (after, _, { at = "" }) => [answer(after, `screw.${at}.beyond`)]],
  [
    /^tip (.+) short of the drilled depth$/,
    (after, _, { at = "" }) => [answer(after, `screw.${at}.beyond`).replace(/^[-−]/, "")],
  ],
  [/^the knee bends (.+)$/, (after) => [/\bknee-flexion ([^\n]+)/.exec(after.text)?.[1] ?? ""]],
  [/^(\d.+ to .+)$/, (after) => [/\bream (.+)/.exec(after.text)?.[1] ?? ""]],
];

function answer(analysis: Analysis, id: string): string {
  const reckoning = analysis.reckonings?.byId.get(id);
  return reckoning === undefined ? `no ${id}` : answerText(reckoning);
}

/** As it stands in the case: 3 mm ± 1 mm is printed to the place its uncertainty has. */
function gapOf(analysis: Analysis): string {
  const typed = /\bgap (\d+) mm ± (\d+) mm/.exec(analysis.text);
  return typed === null ? "" : `${typed[1]}.0 mm ± ${typed[2]}.0 mm`;
}

function toHundredths(analysis: Analysis, id: string): string {
  return `${Math.round(millimetres(analysis, id) * 100) / 100} mm`;
}

function millimetres(analysis: Analysis, id: string): number {
  const made = analysis.reckonings?.byId.get(id)?.answer;
  return made?.kind === "known" ? Math.round(valueIn(made, "mm") * 1e6) / 1e6 : Number.NaN;
}

/** Without what is said of its uncertainty. */
function nominal(text: string): string {
  return text.split(" ±")[0] ?? "";
}

function identity({ slug, message, at, place }: Finding): string {
  return JSON.stringify([slug, message, at ?? "", place.file]);
}

function countErrors({ judgement }: Analysis): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { grade, slug } of judgement.findings) {
    if (grade === "error") counts.set(slug, (counts.get(slug) ?? 0) + 1);
  }
  return counts;
}

/** Lines by content: what is there more often before, and after. */
function lineChanges(before: string, after: string): { readonly gone: string[]; readonly come: string[] } {
  return { gone: surplus(before, after), come: surplus(after, before) };
}

function surplus(of: string, over: string): string[] {
  const left = over.split("\n");
  return of.split("\n").filter((line) => {
    const at = left.indexOf(line);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

function without(text: string, lines: readonly string[]): readonly string[] {
  const left = [...lines];
  return text.split("\n").filter((line) => {
    const at = left.indexOf(line);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

function sorted(text: string): readonly string[] {
  return text.split("\n").sort();
}

/** The lines the finding is about and the notes over them, one more for a line that follows from it elsewhere. */
function linesOf({ place }: Finding, { text }: Analysis): number {
  return text.slice(place.span.start, place.span.end).split("\n").length + 1;
}

function numbersOf(analysis: Analysis): readonly string[] {
  return (analysis.reckonings?.list ?? []).map((each) => `${each.id} ${answerText(each)}`);
}
