/** The seal of every sample plan: laid out or reviewed in whatever place it is the same, with a number changed it is not. */
import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { layout } from "../../grammar/layout.ts";
import { parse } from "../../grammar/parse.ts";
import { sealOf } from "../../grammar/seal.ts";
import { lex } from "../../grammar/tokens.ts";
import { sampleText } from "../check.ts";

const plans = readdirSync(new URL("../../samples/plans", import.meta.url)).filter((file) => file.endsWith(".isthmus"));

/** Longer than a row, so that laying it out breaks it. */
const review = `  reviewed "${"the senior registrar ".repeat(4).trimEnd()}", dated 2026-03-02, seal "4f1c9a0d27b3e865" # seen\n`;

test.each(plans)("%s", (file) => {
  const text = sampleText(`plans/${file}`);
  const seal = sealOf(text);
  expect(seal).toMatch(/^[0-9a-f]{16}$/);
  expect(sealOf(layout(parse(text)) ?? "")).toBe(seal);
  const reviewed = placesOfStatements(text).map((at) => text.slice(0, at) + review + text.slice(at));
  expect(reviewed.length).toBeGreaterThan(4);
  expect(new Set(reviewed.map((each) => sealOf(each)))).toEqual(new Set([seal]));
  const otherwise = placesOfNumbers(text).map((at) => `${text.slice(0, at)}1${text.slice(at)}`);
  expect(otherwise.length).toBeGreaterThan(10);
  expect(new Set(otherwise.map((each) => sealOf(each))).has(seal)).toBe(false);
});

/** Where a row of the plan's own statements begins, its notes before it, and the row that ends the plan. */
function placesOfStatements(text: string): readonly number[] {
  const [plan] = parse(text).tree.statements.filter(({ word }) => word.name === "plan");
  const inside = plan?.block?.statements ?? [];
  const starts = inside.map(({ notes, span }) => notes[0]?.span.start ?? span.start);
  return [...starts, text.lastIndexOf("}")].map((start) => text.lastIndexOf("\n", start) + 1);
}

/** Some numbers, spread over the text. */
function placesOfNumbers(text: string): readonly number[] {
  const starts = lex(text).flatMap(({ kind, span }) => (kind === "number" ? [span.start] : []));
  return starts.filter((_, at) => at % 5 === 1);
}
