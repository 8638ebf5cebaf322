/**
 * Laws of every answer, over every sample and over samples with mistakes in them: at any offset nothing throws, and what an answer
 * points at lies inside the text it points into.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Span } from "../../grammar/tree.ts";
import type { Analysis } from "../../server/answers/analyse.ts";
import { offersAt } from "../../server/answers/completion.ts";
import { definitionAt } from "../../server/answers/definition.ts";
import { fixesIn } from "../../server/answers/fixes.ts";
import { formattingEdits } from "../../server/answers/formatting.ts";
import { hintsIn } from "../../server/answers/hints.ts";
import { hoverAt } from "../../server/answers/hover.ts";
import { type OutlineEntry, outlineOf } from "../../server/answers/outline.ts";
import { analyseText, applied, isWithin, sampleText } from "../check.ts";
import { mistaken, samplePaths } from "./mutations.ts";

describe.each(samplePaths)("%s", (path) => {
  test("every answer at every tenth offset lies in the text", () => {
    const analysis = analyseText(sampleText(path), `../${path}`);
    expectSound(analysis, everyNth(analysis.text.length, 10));
    let hovers = 0;
    for (const offset of everyNth(analysis.text.length, 10)) if (hoverAt(analysis, offset) !== undefined) hovers += 1;
    expect(hovers).toBeGreaterThan(10);
  });
});

test("the same with mistakes in them", () => {
  fc.assert(
    fc.property(
      mistaken,
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 6, maxLength: 6 }),
      (at, shares) => {
        const analysis = analyseText(at.text, `../${at.path}`);
        expectSound(
          analysis,
          shares.map((share) => Math.floor(share * at.text.length)),
        );
      },
    ),
    { numRuns: 150 },
  );
});

test.each([
  [""],
  ["\n"],
  ["# only a comment"],
  ["## only a note\n"],
  ["\ufeff"],
  ["{"],
  ["}\n}"],
  ['"""'],
  ["isthmus 1\n"],
  ["🦴🦴"],
])("%j has answers", (text) => {
  const analysis = analyseText(text);
  expectSound(analysis, everyNth(text.length, 1));
});

test.each([Number.NaN, -1, 1e9, 0.5, Number.POSITIVE_INFINITY])("offset %d is answered without a fault", (odd) => {
  const analysis = analyseText(sampleText("plans/simple-shaft.isthmus"));
  expect(() => [hoverAt(analysis, odd), offersAt(analysis, odd), definitionAt(analysis, odd)]).not.toThrow();
});

function everyNth(length: number, step: number): number[] {
  return Array.from({ length: Math.floor(length / step) + 1 }, (_, index) => Math.min(index * step, length));
}

function expectSound(analysis: Analysis, offsets: readonly number[]): void {
  const { text } = analysis;
  for (const offset of offsets) {
    const spans = spansAt(analysis, offset);
    expect(spans.filter((span) => !isWithin(span, text))).toEqual([]);
  }
  const whole = { start: 0, end: text.length };
  expect(hintsIn(analysis, whole).filter(({ offset }) => !isWithin({ start: offset, end: offset }, text))).toEqual([]);
  expectNested(outlineOf(analysis), whole);
  const edits = formattingEdits(analysis) ?? [];
  expect(edits.filter(({ span }) => !isWithin(span, text))).toEqual([]);
  expect(formattingEdits(analyseText(applied(text, edits))) ?? []).toEqual([]);
}

function spansAt(analysis: Analysis, offset: number): readonly Span[] {
  const hover = hoverAt(analysis, offset);
  if (hover !== undefined) expect(hover.markdown).not.toMatch(/undefined|NaN|\[object|Infinity/);
  const place = definitionAt(analysis, offset);
  if (place !== undefined) expect(isWithin(place.span, analysis.texts.get(place.file) ?? "")).toBe(true);
  const fixes = fixesIn(analysis, { start: offset, end: offset });
  const offers = offersAt(analysis, offset);
  // What an offer replaces ends at the cursor and is one line.
  expect(
    offers.filter(({ span }) => span.end !== offset || /[\r\n]/.test(analysis.text.slice(span.start, offset))),
  ).toEqual([]);
  return [
    ...(hover === undefined ? [] : [hover.span]),
    ...offers.map(({ span }) => span),
    ...fixes.flatMap(({ edits }) => edits.map(({ span }) => span)),
  ];
}

function expectNested(entries: readonly OutlineEntry[], within: Span): void {
  for (const { name, span, wordSpan, children } of entries) {
    expect(name.trim()).not.toBe("");
    expect(within.start <= span.start && span.end <= within.end, name).toBe(true);
    expect(span.start <= wordSpan.start && wordSpan.end <= span.end, name).toBe(true);
    expectNested(children, span);
  }
}
