/**
 * Puts lines into a block of a document, reads them against the vocabulary and compares their problems with the marked ones. Only
 * helpers of the tests of shape stand here.
 */
import { expect } from "vitest";
import { parse } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import { type Shaped, type ShapedStatement, shape } from "../../grammar/shape.ts";
import { readMarked, writeMarked } from "../markers.ts";

export function read(text: string): Shaped {
  return shape(parse(text).tree);
}

export function problemsOf(text: string): readonly Problem[] {
  const { tree, problems } = parse(text);
  return [...problems, ...shape(tree).problems];
}

/** What a mark says of a problem: slug, what was found, what was expected, the word that was meant. */
export function said({ slug, found, expected, near }: Problem): string {
  const what = found === undefined ? slug : `${slug} ${found}`;
  const wanted = expected === undefined ? "" : `: ${expected.join(" | ")}`;
  return near === undefined ? what + wanted : `${what + wanted}; near ${near}`;
}

/** The whole text is read, and its problems are exactly the marked ones. */
export function check(source: string): void {
  const { text, marks } = readMarked(source);
  const found = problemsOf(text).map((problem) => ({ ...problem.span, says: said(problem) }));
  expect(writeMarked(text, found)).toBe(writeMarked(text, marks));
}

/** The words that open each block, from the outermost on. */
const openings: Readonly<Record<string, readonly string[]>> = {
  file: [],
  plan: ['plan "a" {'],
  catalogue: ['catalogue "a" {'],
  protocol: ['protocol "a" {'],
  nail: ['catalogue "a" {', "nail a {"],
  screws: ['catalogue "a" {', "screws a {"],
  reamers: ['catalogue "a" {', "reamers {"],
  case: ['plan "a" {', "case a {"],
  images: ['plan "a" {', "images {"],
  measures: ['plan "a" {', "measures {"],
  operation: ['plan "a" {', "operation {"],
  fallback: ['plan "a" {', 'fallback "a" {'],
  achieved: ['plan "a" {', "achieved {"],
  aftercare: ['plan "a" {', "aftercare {"],
  removal: ['plan "a" {', "removal {"],
  ask: ['plan "a" {', 'ask "a" {'],
};

/** Puts lines into a block; gives the text and where the lines begin. */
export function within(block: string, lines: string): { readonly text: string; readonly start: number } {
  const opening = openings[block] ?? [];
  const before = ["isthmus 1", ...opening, ""].join("\n");
  return { text: `${before}${lines}\n${opening.map(() => "}\n").join("")}`, start: before.length };
}

/** Like `check`, for lines of one block: what the block or the plan round them lacks is not looked at. */
export function checkIn(block: string, source: string): void {
  const { text: lines, marks } = readMarked(source);
  const { text, start } = within(block, lines);
  const found = problemsOf(text)
    .filter(({ span }) => span.start >= start && span.start <= start + lines.length)
    .map((problem) => ({ start: problem.span.start - start, end: problem.span.end - start, says: said(problem) }));
  expect(writeMarked(lines, found)).toBe(writeMarked(lines, marks));
}

/** The lines after the first repair of their only problem. */
export function repaired(block: string, lines: string, which = 0): string {
  const { text, start } = within(block, lines);
  const problems = problemsOf(text).filter(({ span }) => span.start >= start && span.start <= start + lines.length);
  expect(problems.map((problem) => problem.slug)).toHaveLength(1);
  const edits = [...(problems[0]?.repairs?.[which]?.edits ?? [])].sort((a, b) => b.span.start - a.span.start);
  const changed = edits.reduce((so, { span, text: put }) => so.slice(0, span.start) + put + so.slice(span.end), text);
  return changed.slice(start, start + lines.length + changed.length - text.length);
}

export function lastStatement(shaped: Shaped): ShapedStatement | undefined {
  let found: ShapedStatement | undefined;
  for (let inner = shaped.statements.at(-1); inner !== undefined; inner = inner.children.at(-1)) found = inner;
  return found;
}
