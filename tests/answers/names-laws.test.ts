/**
 * Laws of the answers over stretches, names and edits, over samples with mistakes in them at any offset: nothing throws, every span lies
 * in its text, edits do not overlap, and what is said to keep every number keeps it.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import type { Analysis } from "../../server/answers/analyse.ts";
import { completedSteps } from "../../server/answers/complete-steps.ts";
import { definitionsAt } from "../../server/answers/definition.ts";
import { factsOf } from "../../server/answers/facts.ts";
import { fedBy, feedNodesAt, feeds } from "../../server/answers/feeds.ts";
import { fixAllEdits } from "../../server/answers/fix-all.ts";
import { foldsIn } from "../../server/answers/folding.ts";
import { formattingEditsIn, formattingEditsTyped } from "../../server/answers/formatting-part.ts";
import { highlightsAt, linkedAt } from "../../server/answers/highlights.ts";
import { hintCategories, hintsIn } from "../../server/answers/hints.ts";
import { lensesOf } from "../../server/answers/lenses.ts";
import { symbolsMatching } from "../../server/answers/library-symbols.ts";
import { linksIn } from "../../server/answers/links.ts";
import { refactoringsIn } from "../../server/answers/refactorings.ts";
import { renamed } from "../../server/answers/rename.ts";
import { selectionsAt } from "../../server/answers/selection.ts";
import { tokensIn } from "../../server/answers/semantic-tokens.ts";
import { signatureAt } from "../../server/answers/signature.ts";
import { triedOffer } from "../../server/answers/tried-offer.ts";
import { waiversIn } from "../../server/answers/waive.ts";
import { differences } from "../../server/answers/what-if.ts";
import { analyseText, applied, isWithin, sampleText } from "../check.ts";
import { mistaken } from "./mutations.ts";

/** Spread evenly: a double would mostly be next to nothing. */
const share = fc.nat(9999).map((part) => part / 9999);
const odd = fc.constantFrom(Number.NaN, -1, 1e9, 0.5, Number.POSITIVE_INFINITY, 2 ** 31);

test("every answer at any place of any text lies in the text", () => {
  fc.assert(
    fc.property(mistaken, share, share, fc.option(odd), (at, one, two, strange) => {
      const analysis = analyseText(at.text, `../${at.path}`);
      const [a, b] = [one, two].map((part) => Math.floor(part * at.text.length)) as [number, number];
      const span = { start: Math.min(a, b), end: Math.max(a, b) };
      expect(spansOf(analysis, strange ?? a, span).filter((each) => !isWithin(each, at.text))).toEqual([]);
    }),
    { numRuns: 100 },
  );
}, 120_000);

function spansOf(analysis: Analysis, offset: number, span: Span): Span[] {
  const own = (place: { readonly file: string; readonly span: Span }): Span[] =>
    place.file === analysis.file ? [place.span] : [];
  const nodes = feedNodesAt(analysis, offset);
  const fed = nodes.flatMap(({ key }) => [...fedBy(analysis, key), ...feeds(analysis, key)]);
  const signature = signatureAt(analysis, offset);
  const within = (signature?.parameters ?? []).every((part) => isWithin(part, signature?.label ?? ""));
  expect(within).toBe(true);
  return [
    ...highlightsAt(analysis, offset).map((each) => each.span),
    ...linkedAt(analysis, offset),
    ...selectionsAt(analysis, offset),
    ...foldsIn(analysis).map((each) => each.span),
    ...tokensIn(analysis, span).map((each) => each.span),
    ...linksIn(analysis).map((each) => each.span),
    ...lensesOf(analysis).flatMap((lens) => [lens.span, ...own(lens.finding.place)]),
    ...definitionsAt(analysis, offset).flatMap(own),
    ...symbolsMatching([factsOf(analysis)], "a").flatMap(({ place }) => own(place)),
    ...[...nodes, ...fed.map(({ node }) => node)].flatMap((node) => [...own(node.place), node.span]),
    ...fed.flatMap(({ spans }) => spans),
    ...hintsIn(analysis, span, new Set(hintCategories)).map((hint) => ({ start: hint.offset, end: hint.offset })),
    ...formattingEditsIn(analysis, [span]).map((edit) => edit.span),
    ...["\n", "}", "x"].flatMap((sign) => formattingEditsTyped(analysis, offset, sign).map((edit) => edit.span)),
  ];
}

test("edits at any place of any text do not overlap, and keep what they are said to keep", () => {
  let tried = 0;
  fc.assert(
    fc.property(mistaken, share, fc.constantFrom(0, 7, 30, 120), (at, part, length) => {
      const analysis = analyseText(at.text, `../${at.path}`);
      const start = Math.floor(part * at.text.length);
      const span = { start, end: Math.min(at.text.length, start + length) };
      for (const { edits } of refactoringsIn(analysis, span, () => true)) {
        tried += 1;
        expectSameNumbers(analysis, edits, at.path);
      }
      expectSameNumbers(analysis, fixAllEdits(analysis), at.path);
      for (const { edits } of [...waiversIn(analysis, span), ...completedSteps(analysis, span)]) {
        applied(at.text, edits);
      }
      const name = renamed(analysis, start, "another-name", [factsOf(analysis)]);
      if (name !== undefined && "edits" in name) {
        const own = name.edits.filter(({ place }) => place.file === analysis.file);
        applied(
          at.text,
          own.map(({ place, text }) => ({ span: place.span, text })),
        );
      }
      expect(triedOffer(analysis, span, "1 mm")).not.toBe("");
    }),
    { numRuns: 150 },
  );
  expect(tried).toBeGreaterThan(3);
}, 120_000);

function expectSameNumbers(analysis: Analysis, edits: readonly Edit[], path: string): void {
  const after = analyseText(applied(analysis.text, edits), `../${path}`);
  const { changed, come } = differences(analysis, after);
  expect({ changed, come }).toEqual({ changed: [], come: [] });
}

test.each(["", "\n", "\ufeff", "{", "}\n}", '"""', "isthmus 1\n", "🦴🦴", "plan", 'plan "x" {'])(
  "%j has answers",
  (text) => {
    const analysis = analyseText(text);
    const whole = { start: 0, end: text.length };
    expect(spansOf(analysis, 0, whole).filter((each) => !isWithin(each, text))).toEqual([]);
    expect(refactoringsIn(analysis, whole, () => true)).toEqual([]);
  },
);

test("names of the language's own objects are names like any other", () => {
  const text = sampleText("plans/simple-shaft.isthmus")
    .replace("  status for-review\n", "  let constructor = 9 mm\n  let toString = constructor\n")
    .replace("sunk 9 mm", "sunk toString");
  const analysis = analyseText(text);
  const at = text.indexOf("toString");
  expect(highlightsAt(analysis, at)).toHaveLength(2);
  expect(renamed(analysis, at, "valueOf", [factsOf(analysis)])).toMatchObject({ edits: [{}, {}] });
});
