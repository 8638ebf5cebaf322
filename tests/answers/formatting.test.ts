/** Formatting: canonical layout as edits of the lines that change, whatever the line ends, and no edit where it would be risky. */
import { describe, expect, test } from "vitest";
import { formattingEdits } from "../../server/answers/formatting.ts";
import { analyseText, applied, checkLayout, sampleText } from "../check.ts";

const tidy = sampleText("plans/simple-shaft.isthmus");

function edits(text: string): readonly { readonly was: string; readonly is: string }[] | undefined {
  return formattingEdits(analyseText(text))?.map(({ span, text: is }) => ({
    was: text.slice(span.start, span.end),
    is,
  }));
}

function formatted(text: string): string {
  return applied(text, formattingEdits(analyseText(text)) ?? []);
}

test("a tidy text has no edits", () => {
  checkLayout(tidy, tidy);
  expect(edits(tidy)).toEqual([]);
});

describe("only the lines that change are replaced", () => {
  test("one line", () => {
    expect(edits(tidy.replace("    cap 5 mm\n", "  cap   5mm\n"))).toEqual([
      { was: "  cap   5mm\n", is: "    cap 5 mm\n" },
    ]);
  });

  test("two lines far apart are two edits, two together are one", () => {
    expect(edits(tidy.replace("side right", "side  right").replace("cap 5 mm", "cap 5mm"))).toHaveLength(2);
    expect(edits(tidy.replace("side right", "side  right").replace("bone tibia", "bone  tibia"))).toHaveLength(1);
  });

  test("a line more or less", () => {
    const spaced = tidy.replace("    side right\n", "\n\n\n    side right\n");
    expect(edits(spaced)).toEqual([{ was: "\n\n\n", is: "" }]);
    expect(formatted(spaced)).toBe(tidy);
  });

  test("a text without its last line end gets one", () => {
    expect(formatted(tidy.trimEnd())).toBe(tidy);
  });
});

describe("line ends and odd characters stay", () => {
  test.each([
    ["CRLF", "\r\n"],
    ["CR", "\r"],
  ])("%s", (_, end) => {
    const typed = tidy.replace("cap 5 mm", "cap 5mm").replaceAll("\n", end);
    expect(formatted(typed)).toBe(tidy.replaceAll("\n", end));
    expect(edits(typed)).toEqual([{ was: `    cap 5mm${end}`, is: `    cap 5 mm${end}` }]);
  });

  test("characters beyond the first plane, before and in a changed line", () => {
    const typed = tidy.replace("## The far end", "## 🦴 The far end").replace("cap 5 mm", 'step "🦴"\n   cap 5 mm');
    expect(formatted(typed)).toBe(
      tidy.replace("## The far end", "## 🦴 The far end").replace("cap 5 mm", 'step "🦴"\n    cap 5 mm'),
    );
  });

  test("a byte-order mark", () => {
    expect(formatted(`\ufeff${tidy.replace("cap 5 mm", "cap 5mm")}`)).toBe(`\ufeff${tidy}`);
  });
});

describe("what cannot be laid out without risk is left as it is", () => {
  test.each([
    ["a line that cannot be read", tidy.replace("cap 5 mm", "cap 5 mm +")],
    ["a brace too few", tidy.slice(0, tidy.lastIndexOf("}"))],
    ["a text that is not closed", tidy.replace('gap."', "gap.")],
  ])("%s", (_, text) => {
    expect(text).not.toBe(tidy);
    expect(edits(text)).toBeUndefined();
  });
});

test.each([[""], ["# only a comment\n"], ["isthmus 1\n"]])("%j stays", (text) => {
  expect(formatted(text)).toBe(text);
});
