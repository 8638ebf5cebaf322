/** Findings in the order of the text, each once, each at a place of the document that is judged. */
import { describe, expect, test } from "vitest";
import type { Finding, Grade } from "../../server/findings/finding.ts";
import { broughtHome, inTextOrder, onceEach } from "../../server/findings/ordering.ts";
import type { Document } from "../../server/meaning/plan.ts";
import { changed, judged } from "./judged.ts";

function at(start: number, end: number, slug: string, grade: Grade = "error", file = "plan.isthmus"): Finding {
  return { slug, grade, place: { file, span: { start, end } }, message: `About ${slug}.` };
}

function documentOf(analysis: { readonly meaning: { readonly document: Document | undefined } }): Document {
  const { document } = analysis.meaning;
  if (document === undefined) throw new Error("the sample is understood");
  return document;
}

test("by place, then the graver, then by slug, however they came", () => {
  const sorted = [
    at(1, 5, "z"),
    at(2, 3, "b", "error"),
    at(2, 3, "a", "warning"),
    at(2, 3, "c", "warning"),
    at(2, 3, "a", "information"),
    at(2, 9, "a"),
  ];
  for (const from of [sorted, [...sorted].reverse(), [...sorted.slice(3), ...sorted.slice(0, 3)]]) {
    expect(inTextOrder(from)).toEqual(sorted);
  }
});

test("the same words at the same place are kept once, the first of them", () => {
  const waived = { ...at(2, 3, "a"), fallback: "x" };
  expect(onceEach([at(2, 3, "a"), waived, at(2, 4, "a"), at(2, 3, "b"), at(2, 3, "a", "error", "other")])).toEqual([
    at(2, 3, "a"),
    at(2, 4, "a"),
    at(2, 3, "b"),
    at(2, 3, "a", "error", "other"),
  ]);
});

describe("a finding in another file", () => {
  const analysis = changed();
  const plan = documentOf(analysis);

  test.each([
    ["catalogue/fenwick.isthmus", '"catalogue/fenwick.isthmus"'],
    ["protocol/teaching.isthmus", '"protocol/teaching.isthmus"'],
  ])("%s is shown at the line that reads it", (file, line) => {
    const fix = { title: "a fix of the other file", class: "needs a choice" as const, edits: [] };
    const home = broughtHome({ ...at(2, 3, "a", "error", file), fixes: [fix] }, plan);
    expect(home.place.file).toBe("plan.isthmus");
    expect(analysis.text.slice(home.place.span.start, home.place.span.end)).toBe(line);
    expect(home.related).toEqual([{ place: { file, span: { start: 2, end: 3 } }, message: "It lies here." }]);
    expect(home.fixes).toBeUndefined();
  });

  test("that no line reads is shown at the title", () => {
    const home = broughtHome(at(2, 3, "a", "error", "elsewhere"), plan);
    expect(analysis.text.slice(home.place.span.start, home.place.span.end)).toMatch(/^"Oblique fracture/);
  });

  test("is shown at the title of a document that reads none", () => {
    const protocol = judged({ text: 'isthmus 1\n\nprotocol "An invented one" {\n  demand cap\n}\n' });
    const home = broughtHome(at(2, 3, "a", "error", "elsewhere"), documentOf(protocol));
    expect(protocol.text.slice(home.place.span.start, home.place.span.end)).toBe('"An invented one"');
  });

  test("in its own file stays where it is", () => {
    expect(broughtHome(at(2, 3, "a"), plan)).toEqual(at(2, 3, "a"));
  });
});
