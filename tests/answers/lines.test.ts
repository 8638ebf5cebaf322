/** Lines and columns by the line ends of the protocol, held against a second way of counting them. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { linesOf } from "../../server/answers/lines.ts";

const anyText = fc
  .array(fc.constantFrom("a", "ä", "🦴", " ", "\t", "\n", "\r", "\r\n", "\u2028", "\u0085", "\ufeff"))
  .map((parts) => parts.join(""));

describe("laws", () => {
  test("lines and positions are those of the protocol library's own text", () => {
    fc.assert(
      fc.property(anyText, fc.nat({ max: 60 }), (text, offset) => {
        const theirs = TextDocument.create("a", "isthmus", 1, text);
        const ours = linesOf(text);
        expect(ours.count).toBe(theirs.lineCount);
        const at = Math.min(offset, text.length);
        if (text[at - 1] === "\r" && text[at] === "\n") return; // no position lies between the two
        expect(ours.position(at)).toEqual(theirs.positionAt(at));
      }),
    );
  });

  test("a position goes back to its offset", () => {
    fc.assert(
      fc.property(anyText, fc.nat({ max: 60 }), (text, offset) => {
        const lines = linesOf(text);
        const at = Math.min(offset, text.length);
        const back = lines.offset(lines.position(at));
        expect(back === at || text.slice(back, at) === "\r").toBe(true);
      }),
    );
  });

  test("the lines joined with their ends are the text", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const lines = linesOf(text);
        const texts = Array.from({ length: lines.count }, (_, line) => lines.text(line));
        expect(texts.join("\n")).toBe(text.replace(/\r\n|\r/g, "\n"));
      }),
    );
  });

  test("any position in, an offset of the text out", () => {
    const odd = fc.oneof(fc.integer(), fc.double(), fc.constantFrom(Number.NaN, -1, 2 ** 31, Number.POSITIVE_INFINITY));
    fc.assert(
      fc.property(anyText, odd, odd, (text, line, character) => {
        const offset = linesOf(text).offset({ line, character });
        expect(Number.isInteger(offset) && offset >= 0 && offset <= text.length).toBe(true);
        const back = linesOf(text).position(character);
        expect(Number.isInteger(back.line) && Number.isInteger(back.character) && back.line >= 0).toBe(true);
      }),
    );
  });
});

test.each([
  ["", 1, [""]],
  ["a", 1, ["a"]],
  ["a\n", 2, ["a", ""]],
  ["a\r\nb\rc\nd", 4, ["a", "b", "c", "d"]],
  ["\u2028\u0085", 1, ["\u2028\u0085"]],
])("%j", (text, count, lines) => {
  expect(linesOf(text).count).toBe(count);
  expect(lines.map((_, line) => linesOf(text).text(line))).toEqual(lines);
  expect(linesOf(text).text(count)).toBe("");
  expect(linesOf(text).text(-1)).toBe("");
});

test("a column past the end of its line is its end, before the line end", () => {
  const lines = linesOf("ab\r\ncd");
  expect(lines.offset({ line: 0, character: 99 })).toBe(2);
  expect(lines.offset({ line: 1, character: 99 })).toBe(6);
  expect(lines.offset({ line: 9, character: 0 })).toBe(6);
});
