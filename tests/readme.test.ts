/** What the README shows is what the tool says: its plan is checked and reckoned, its commands exist, its cautions stand. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import manifest from "../package.json" with { type: "json" };
import { caution } from "../server/answers/caution.ts";
import { findingsText } from "../server/command-line/finding-text.ts";
import { reckoningsText } from "../server/command-line/reckon.ts";
import { analyseText } from "./check.ts";

const readme = readFileSync(fileURLToPath(new URL("../README.md", import.meta.url)), "utf8");
const block = (language: string, number = 0): string =>
  [...readme.matchAll(/```(\w+)\n([\s\S]*?)```/g)].filter(([, found]) => found === language)[number]?.[2] ?? "";
const silent = { colours: false, out: () => undefined, err: () => undefined };

describe("the README", () => {
  const analysis = analyseText(block("isthmus"));

  test("shows what check prints for its plan", () => {
    expect(block("text", 0)).toBe(findingsText(silent, "plan.isthmus", analysis));
  });

  test("shows numbers that reckon prints for its plan", () => {
    const printed = reckoningsText(silent, analysis)
      .split("\n")
      .map((line) => line.replace(/ {2,}/g, "  ").replace(/ \[\d+\]$/, ""));
    const shown = block("text", 1).trimEnd().split("\n");
    expect(shown.length).toBeGreaterThan(5);
    for (const line of shown) expect(printed).toContain(line.replace(/ {2,}/g, "  "));
  });

  test("names only commands that exist", () => {
    const named = [...readme.matchAll(/npm (?:run )?([a-z:]+)\b/g)].map(([, name]) => name ?? "");
    expect(named.filter((name) => !(name in manifest.scripts))).toEqual([]);
    expect(named.length).toBeGreaterThan(3);
  });

  test("opens with the job in one paragraph and carries the cautions", () => {
    expect(readme.split("\n\n")[1]).toMatch(/^Isthmus is a language, a language server/);
    const plain = readme.replace(/[>*\s]+/g, " ");
    for (const sentence of caution.split(". ")) expect(plain).toContain(sentence.replace(/\.$/, ""));
  });
});
