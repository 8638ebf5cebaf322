/**
 * Every sample through every stage, written down where a reader can follow it: tests/baselines/<sample>/ holds tokens, tree,
 * values and findings beside the sample's own lines. A changed baseline is a change a user will see.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { layout } from "../grammar/layout.ts";
import { parse } from "../grammar/parse.ts";
import { lex } from "../grammar/tokens.ts";
import type { Item, Statement, Tree } from "../grammar/tree.ts";
import type { Analysis } from "../server/answers/analyse.ts";
import { hintsIn } from "../server/answers/hints.ts";
import { linesOf } from "../server/answers/lines.ts";
import { print } from "../server/quantity/print.ts";
import { analyseText } from "./check.ts";
import { writeMarked } from "./markers.ts";

const root = fileURLToPath(new URL("../samples/", import.meta.url));
const files = readdirSync(root, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".isthmus"))
  .map((name) => name.replaceAll("\\", "/"))
  .sort();

describe.each(files)("%s", (file) => {
  const text = readFileSync(root + file, "utf8");
  const analysis = analyseText(text, `../${file}`);
  const baseline = (stage: string): string => `baselines/${file.replace(/\.isthmus$/, "")}/${stage}.txt`;

  test("tokens", async () => {
    await expect(tokensText(text)).toMatchFileSnapshot(baseline("tokens"));
  });

  test("tree", async () => {
    await expect(treeText(analysis.parsed.tree)).toMatchFileSnapshot(baseline("tree"));
  });

  test("values", async () => {
    await expect(valuesText(analysis)).toMatchFileSnapshot(baseline("values"));
  });

  test("findings", async () => {
    await expect(findingsText(analysis)).toMatchFileSnapshot(baseline("findings"));
  });

  test("is in canonical layout already", () => {
    expect(layout(parse(text))).toBe(text);
  });

  test("says that it is invented", () => {
    expect(text).toMatch(/invented|made up/i);
  });
});

test("a sample of each kind is there", () => {
  expect(files.filter((file) => file.startsWith("plans/")).length).toBeGreaterThanOrEqual(4);
  expect(files.some((file) => file.startsWith("catalogue/"))).toBe(true);
  expect(files.some((file) => file.startsWith("protocol/"))).toBe(true);
});

const wrongOnPurpose = /(?:mistakes|uncertain-limits)\.isthmus$/;
const plans = files.filter((file) => file.startsWith("plans/"));

test.each(plans.filter((file) => !wrongOnPurpose.test(file)))("%s has nothing to say that is not waived", (file) => {
  const { findings } = analyseText(readFileSync(root + file, "utf8"), `../${file}`).judgement;
  expect(findings.filter(({ waived }) => waived === undefined).map(({ slug }) => slug)).toEqual([]);
});

const twins: readonly (readonly [string, readonly string[]])[] = [
  ["narrow-canal", ["demanded", "reaming-overshoot", "reaming-step"]],
  ["oblique-backslap", ["wire-missing", "nail-proud", "locking-order", "screw-overlength"]],
  ["proximal-third", ["block-side", "screws-few"]],
];

test.each(twins)("the twin of %s holds its mistakes", (name, mistakes) => {
  const { findings } = analyseText(readFileSync(`${root}plans/${name}-with-mistakes.isthmus`, "utf8")).judgement;
  expect(findings.map(({ slug }) => slug)).toEqual(expect.arrayContaining([...mistakes]));
  expect(files).toContain(`plans/${name}.isthmus`);
});

test("the collection of mistakes holds more than five", () => {
  const text = readFileSync(`${root}plans/typical-mistakes.isthmus`, "utf8");
  expect(analyseText(text).judgement.findings.length).toBeGreaterThan(5);
});

function tokensText(text: string): string {
  const lines = linesOf(text);
  const byLine = new Map<number, string[]>();
  for (const { kind, span, text: image } of lex(text)) {
    const { line } = lines.position(span.start);
    byLine.set(line, [...(byLine.get(line) ?? []), `${kind} ${JSON.stringify(image)}`]);
  }
  return interleaved(text, (line) => byLine.get(line) ?? []);
}

function interleaved(text: string, notes: (line: number) => readonly string[]): string {
  const lines = linesOf(text);
  const rows: string[] = [];
  for (let line = 0; line < lines.count; line += 1) {
    rows.push(lines.text(line), ...notes(line).map((note) => `    · ${note}`));
  }
  return rows.join("\n");
}

function treeText(tree: Tree): string {
  const rows: string[] = [];
  const visit = (statement: Statement, depth: number): void => {
    const indent = "  ".repeat(depth);
    for (const note of statement.notes) rows.push(`${indent}note ${JSON.stringify(note.text)}`);
    const phrases = statement.phrases.map(({ items }) => items.map(itemText).join(" ")).join(" , ");
    rows.push(`${indent}${statement.word.name} ${phrases}${statement.broken ? " BROKEN" : ""}`.trimEnd());
    for (const inner of statement.block?.statements ?? []) visit(inner, depth + 1);
  };
  for (const statement of tree.statements) visit(statement, 0);
  return `${rows.join("\n")}\n`;
}

function itemText(item: Item): string {
  switch (item.kind) {
    case "quantity": {
      const spread = item.plusMinus === undefined ? "" : ` ± ${item.plusMinus.text}`;
      return `[${item.number.text}${spread} ${item.unit?.unit ?? "1"}]`;
    }
    case "range":
      return `(from ${itemText(item.from)} to ${itemText(item.to)}${item.by === undefined ? "" : ` by ${itemText(item.by)}`})`;
    case "binary":
      return `(${itemText(item.left)} ${item.operator} ${itemText(item.right)})`;
    case "reading":
      return `(${itemText(item.value)} on ${item.view.name})`;
    case "negated":
      return `(- ${itemText(item.inner)})`;
    case "group":
      return `(${itemText(item.inner)})`;
    case "call":
      return `${item.name.name}(${item.arguments.map(itemText).join(", ")})`;
    case "word":
      return item.name;
    case "text":
      return JSON.stringify(item.value);
    case "code":
    case "date":
      return `${item.kind}:${item.text}`;
    case "equals":
      return "=";
    case "broken":
      return `BROKEN ${JSON.stringify(item.text)}`;
  }
}

function valuesText(analysis: Analysis): string {
  const hints = hintsIn(analysis, { start: 0, end: analysis.text.length });
  const lines = linesOf(analysis.text);
  const beside = interleaved(analysis.text, (line) =>
    hints.filter(({ offset }) => lines.position(offset).line === line).map(({ label }) => label),
  );
  const rows = (analysis.reckonings?.list ?? []).map(({ id, label, answer, unit, formula, filled, remark }) => {
    const value =
      answer.kind === "word"
        ? answer.word
        : answer.kind === "known"
          ? print(answer, unit)
          : `unknown: ${answer.because}`;
    return [
      `${id} = ${value}`,
      `  ${label}`,
      `  ${formula}`,
      `  ${filled}`,
      ...(remark === undefined ? [] : [`  ${remark}`]),
    ].join("\n");
  });
  return `${beside}\n${rows.join("\n")}\n`;
}

function findingsText({ text, judgement, file }: Analysis): string {
  const own = judgement.findings.filter(({ place }) => place.file === file);
  const marked = writeMarked(
    text,
    own.map(({ place, grade, slug, message }) => ({ ...place.span, says: `${grade} ${slug}: ${message}` })),
  );
  const fixes = own.flatMap(({ slug, fixes: offered }) => (offered ?? []).map(({ title }) => `${slug}: ${title}`));
  const untold = [...judgement.outcomes].filter(([, { outcome }]) => outcome === "cannot tell");
  const reasons = untold.map(([slug, { because }]) => `${slug}: ${because.join("; ")}`);
  return [marked, "fixes", ...fixes, "", "cannot tell", ...reasons, ""].join("\n");
}
