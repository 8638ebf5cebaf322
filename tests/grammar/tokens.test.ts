/** The token table: sound by chevrotain's own checks, total, and telling units and operators from words. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checkGrammar } from "../../grammar/parser.ts";
import { lex, makeLexer } from "../../grammar/tokens.ts";
import { unitAfter, unitWords } from "../../grammar/vocabulary/units.ts";
import {
  exampleCatalogue as catalogue,
  examplePlan as plan,
  exampleProtocol as protocol,
} from "../../server/findings/example.ts";

function kinds(text: string): string {
  return lex(text)
    .filter(({ kind }) => kind !== "newline")
    .map((token) => `${token.kind}:${token.text}`)
    .join(" | ");
}

describe("the table", () => {
  test("passes the lexer's checks: no pattern hides another, none is empty", () => {
    expect(makeLexer(false).lexerDefinitionErrors).toEqual([]);
  });

  test("makes a grammar without ambiguities", () => {
    expect(checkGrammar).not.toThrow();
  });
});

describe("lex", () => {
  test("every character but blanks and line ends is in a token, whatever the lexer was told words begin with", () => {
    const characters = Array.from({ length: 0x10000 }, (_, code) => String.fromCharCode(code));
    const lost = characters.filter((each) => !/[ \t\r\n]/.test(each) && kinds(`a${each} `).length <= "word:a".length);
    expect(lost).toEqual([]);
  });

  test.each([
    ["side left", "word:side | word:left"],
    ["a 12mm", "word:a | number:12 | unit:mm"],
    ["a 12.5e-3 kg", "word:a | number:12.5e-3 | unit:kg"],
    ["a 5% of 4°", "word:a | number:5 | unit:% | word:of | number:4 | unit:°"],
    [
      "ream 8 mm to 9 mm by 1 mm",
      "word:ream | number:8 | unit:mm | operator-word:to | number:9 | unit:mm | operator-word:by | number:1 | unit:mm",
    ],
    ["m 3 m", "word:m | number:3 | unit:m"],
    ["to to", "word:to | operator-word:to"],
    ["a knee-flexion, TN-0417", "word:a | word:knee-flexion | punctuation:, | word:TN-0417"],
    ["a 42A2, 42-A2", "word:a | code:42A2 | punctuation:, | code:42-A2"],
    ["a 43C1.1 42A3(b) 42A2(b)[9] 4F2A", "word:a | code:43C1.1 | code:42A3(b) | code:42A2(b)[9] | code:4F2A"],
    ["a 2026-03-02", "word:a | date:2026-03-02"],
    ['a "b # c" # d', 'word:a | text:"b # c" | comment:# d'],
    ['a """b\n"c" """', 'word:a | text:"""b\n"c" """'],
    ["## n\n### c\n#", "note:## n | comment:### c | comment:#"],
    [
      "a ± +- + - * / =",
      "word:a | operator:± | operator:+- | operator:+ | operator:- | operator:* | operator:/ | operator:=",
    ],
    ["a 8,5 ?", "word:a | odd:8,5 | odd:?"],
    ["a {\n}", "word:a | punctuation:{ | punctuation:}"],
  ])("%s", (text, expected) => {
    expect(kinds(text)).toBe(expected);
  });

  test.each(["é", "Ж", "ß", "日本", "😀", "µ", "μ", "Å", "ı", "\u0000", "\ud800"])("%j is no part of a word", (odd) => {
    expect(kinds(`ab${odd}cd`)).toBe(`word:ab | odd:${odd} | word:cd`);
  });

  test("a line ends with LF, CRLF or CR, with nothing else", () => {
    const ends = lex("a\nb\rc\r\nd\u2028e\u2029f\u0085g\u000bh\u000ci").filter(({ kind }) => kind === "newline");
    expect(ends.map(({ text }) => text)).toEqual(["\n", "\r", "\r\n"]);
  });

  test.each([
    ["any text", fc.string({ unit: "binary", maxLength: 200 })],
    ["any signs of ours", signs(200)],
  ])("tokens and blanks make up %s", (_, arbitrary) => {
    fc.assert(
      fc.property(arbitrary, (text) => {
        expect(rebuilt(text)).toBe(text);
      }),
      { numRuns: 3000 },
    );
  });

  test.each([plan, catalogue, protocol])("tokens and blanks make up a document", (text) => {
    expect(rebuilt(text)).toBe(text);
    expect(lex(text).some(({ kind }) => kind === "odd")).toBe(false);
  });
});

/** Texts of the language's own signs, which meet far more of the table than any text does. */
function signs(maxLength: number): fc.Arbitrary<string> {
  const parts = [..."{}(),=+-*/±°%#\"'. \n\r\t\\", "a", "mm", "to", "12", "42A2", "##", '"""', "\ufeff", "é"];
  return fc.array(fc.constantFrom(...parts), { maxLength }).map((all) => all.join(""));
}

/** The text put together again from its tokens; between two of them only blanks may stand. */
function rebuilt(text: string): string {
  let whole = "";
  for (const { span, text: own } of lex(text)) {
    const between = text.slice(whole.length, span.start);
    expect(between).toMatch(/^\ufeff?[ \t]*$/);
    whole += between + own;
    expect(whole.length).toBe(span.end);
  }
  const rest = text.slice(whole.length);
  expect(rest).toMatch(/^\ufeff?[ \t]*$/);
  return whole + rest;
}

describe("units", () => {
  test("every unit word is one token behind a number, with or without a blank", () => {
    for (const word of unitWords.keys()) {
      expect(kinds(`a 12 ${word}`)).toBe(`word:a | number:12 | unit:${word}`);
      expect(kinds(`a 12${word}`)).toBe(`word:a | number:12 | unit:${word}`);
    }
  });

  test("every canonical word is read as itself", () => {
    for (const { unit, dimension } of unitWords.values()) {
      expect(unitWords.get(unit)).toMatchObject({ unit, dimension });
    }
  });

  test.each([
    ["°", "deg"],
    ["percent", "%"],
    ["week", "weeks"],
    ["turn", "turns"],
    ["minute", "minutes"],
  ])("%s is read as %s", (word, unit) => {
    expect(unitWords.get(word)?.unit).toBe(unit);
  });

  test("plurals are written in the singular behind exactly one", () => {
    expect(unitAfter("weeks", 1)).toBe("week");
    expect(unitAfter("weeks", 1.5)).toBe("weeks");
    expect(unitAfter("weeks", 0)).toBe("weeks");
    expect(unitAfter("mm", 1)).toBe("mm");
    expect(unitAfter("deg", 1)).toBe("deg");
  });

  test("words of the prototype are no units", () => {
    for (const word of ["constructor", "__proto__", "toString"]) expect(unitWords.get(word)).toBeUndefined();
  });
});
