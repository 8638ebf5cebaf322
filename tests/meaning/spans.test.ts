/** Finding spans by place gives the same as looking at each. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Span } from "../../grammar/tree.ts";
import { spanFinder } from "../../server/meaning/spans.ts";

const span = fc.tuple(fc.nat(30), fc.nat(8)).map(([start, length]): Span => ({ start, end: start + length }));

function touches(a: Span, b: Span): boolean {
  return a.start < b.end && b.start < a.end;
}

test("all and first are what a look at every span finds", () => {
  fc.assert(
    fc.property(fc.array(span, { maxLength: 12 }), span, (spans, place) => {
      const sorted = spans.toSorted((a, b) => a.start - b.start);
      const expected = sorted.filter((candidate) => touches(candidate, place));
      const finder = spanFinder(spans, (one) => one);
      expect(finder.all(place)).toEqual(expected);
      expect(finder.first(place)).toEqual(expected[0]);
    }),
  );
});

test("an empty place or an empty span touches only from inside", () => {
  const finder = spanFinder([{ start: 3, end: 6 }], (one) => one);
  const empty = (at: number) => finder.first({ start: at, end: at });
  expect([empty(2), empty(3), empty(4), empty(6)]).toEqual([undefined, undefined, { start: 3, end: 6 }, undefined]);
});
