/** The keys of a bibliography, and the citations that ask for them. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { examplePlan as planText } from "../../server/findings/example.ts";
import { entriesOf } from "../../server/meaning/bibliography.ts";
import { citationsIn } from "../../server/meaning/citations.ts";
import { problemsOf } from "./texts.ts";

function keysIn(text: string): string[] {
  return entriesOf(text).map(({ key }) => key);
}

describe("the entries of a bibliography", () => {
  test.each<[string, string, string[]]>([
    ["in braces and in brackets", "@article{one, title = {A}}\n@book(two, title = {B})", ["one", "two"]],
    ["on one row", "@a{one,} @b{two,}", ["one", "two"]],
    ["with blanks and capitals", "  @Article {\tone1996 ,\n}", ["one1996"]],
    ["not of commands", '@string{jb = "J Bone"}\n@comment{x}\n@preamble{"y"}\n@misc{z,}', ["z"]],
    ["not of an address or an entry inside another", "@misc{a, note = {me@b{c}, @d{e}}}", ["a"]],
    ["after one that was never closed", "@misc{a, title = {open\n@misc{b,}", ["a", "b"]],
    ["with a brace that is escaped", "@misc{a, title = {\\{}}\n@misc{b,}", ["a", "b"]],
    ["twice where given twice", "@misc{a,}\n@misc{a,}", ["a", "a"]],
    ["with names of their own", "@misc{__proto__,}\n@misc{doi:10.1/x-y_z,}", ["__proto__", "doi:10.1/x-y_z"]],
    ["none without a key", "@misc{, title = {A}}\n@misc{}", []],
    ["none in other texts", "isthmus 1\n\nplan {\n}\n", []],
  ])("%s", (_, text, keys) => {
    expect(keysIn(text)).toEqual(keys);
  });

  test("have their places", () => {
    const text = "% remark\n@article{ one,\n}";
    const [entry] = entriesOf(text);
    expect(text.slice(entry?.start)).toMatch(/^@article/);
    expect(text.slice(entry?.keySpan.start, entry?.keySpan.end)).toBe("one");
  });

  test("of any text are read to its end, keys where they say", () => {
    const piece = fc.constantFrom("@", "a", "{", "}", "(", ")", "\n", " ", ",", "\\", '"', "@misc{k,", "%");
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 60 }), (pieces) => {
        const text = pieces.join("");
        for (const { key, keySpan, start } of entriesOf(text)) {
          expect(text.slice(keySpan.start, keySpan.end)).toBe(key);
          expect(text[start]).toBe("@");
        }
      }),
    );
  });

  test("of a large text that never closes anything take no long time", () => {
    const text = "@misc{k, x = {\n".repeat(20_000);
    const before = performance.now();
    expect(entriesOf(text)).toHaveLength(20_000);
    expect(entriesOf("@misc{k, x = {".repeat(20_000))).toHaveLength(1);
    expect(performance.now() - before).toBeLessThan(5000);
  });
});

test("citations stand in notes and in texts in quotes alone", () => {
  const text = '## Heat [@a; see @b].\nsummary "As [@c]." # not [@d]\n';
  expect(citationsIn(text).map(({ key, span }) => [key, text.slice(span.start, span.end)])).toEqual([
    ["a", "@a"],
    ["b", "@b"],
    ["c", "@c"],
  ]);
});

test.each([
  ["gone.bib", 'file-missing "gone.bib"'],
  ["../out.bib", 'file-outside "../out.bib"'],
])("a bibliography at %s is told where it is named", (path, problem) => {
  const text = planText.replace("  status for-review\n", `  sources "${path}"\n  status for-review\n`);
  expect(problemsOf(text)).toEqual([problem]);
});
