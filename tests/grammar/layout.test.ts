/** The canonical layout: what it writes, what it leaves alone, and the laws it keeps on any text it takes. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layout } from "../../grammar/layout.ts";
import { parse } from "../../grammar/parse.ts";
import {
  exampleCatalogue as catalogue,
  examplePlan as plan,
  exampleProtocol as protocol,
} from "../../server/findings/example.ts";
import { sketch } from "./sketch.ts";

function laid(text: string): string | undefined {
  return layout(parse(text));
}

const root = fileURLToPath(new URL("../../samples/", import.meta.url));
const samples = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".isthmus"));

describe("documents", () => {
  test.each([
    ["plan", plan],
    ["catalogue", catalogue],
    ["protocol", protocol],
    ...samples.map((name) => [name, readFileSync(root + name, "utf8")]),
  ])("%s is canonical as it stands", (_, text = "") => {
    expect(laid(text)).toBe(text);
  });
});

describe("a line", () => {
  test.each([
    ["  side   left  ", "side left"],
    ["ream 8.5mm,9mm ,10  mm", "ream 8.5 mm, 9 mm, 10 mm"],
    ["ream 8.50 mm to 011 mm by 5e-1 mm", "ream 8.50 mm to 011 mm by 5e-1 mm"],
    ["gap 3±1mm", "gap 3 mm ± 1 mm"],
    ["gap 3 mm +- 1.0 cm", "gap 3 mm ± 1.0 cm"],
    ["gap 45°, 5%, 6 percent", "gap 45 deg, 5 %, 6 %"],
    ["until 1 weeks, 6 week, 1.0 turns, 1 ± 2 days", "until 1 week, 6 weeks, 1.0 turn, 1 day ± 2 days"],
    ["let x=a+b*-c", "let x = a + b * -c"],
    ["let x = - ( a -b on  ap )", undefined],
    ["let x = - ( a - b on  ap )", "let x = -(a - b on ap)"],
    ["let x = min( 3mm ,b,max( ) )", "let x = min(3 mm, b, max())"],
    ["landmark joint ( 3mm )", "landmark joint (3 mm)"],
    ['plan "a  \\" b"{\n}', 'plan "a  \\" b" {\n}'],
    ["fracture 42-A2,fibula 4F2A", "fracture 42-A2, fibula 4F2A"],
    ["take D1,\nD2,\n  D3", "take D1, D2, D3"],
    ["take D1, # one\nD2,\n# two\nD3 # three", "take D1, # one\n    D2,\n    # two\n    D3 # three"],
    ["let x = min(a, # one\nb)", "let x = min(a, # one\n    b)"],
    ["plan { side left }", "plan {\n  side left\n}"],
    ["plan { # a\n}# b", "plan { # a\n} # b"],
    ["plan {\n}", "plan {\n}"],
    ["##a\n##  b\n##\n### c\nside left", "## a\n##  b\n##\n### c\nside left"],
    ["## ends in two blanks  \nside left", "## ends in two blanks  \nside left"],
    ["# a   \nside left # b\t", "# a\nside left # b"],
    ["\n\nside left\n\n\n\nbone tibia\n\n", "side left\n\nbone tibia"],
    ["plan {\n\n  side left\n\n}", "plan {\n  side left\n}"],
    ["plan {\n\n  # a\n\n  # b\n\n}", "plan {\n  # a\n\n  # b\n}"],
    ["plan {\nside left\n\n## n\n\n}", "plan {\n  side left\n\n  ## n\n}"],
    ["plan {\n# a\n}", "plan {\n  # a\n}"],
    ['summary """\n   a\n     b\n"""', 'summary """\n   a\n     b\n"""'],
    ['ask {\nanswer """a\nb""",right\n}', 'ask {\n  answer """a\nb""", right\n}'],
    ["", ""],
    ["# only", "# only"],
    ["\n\n", ""],
  ])("%j", (text, expected) => {
    expect(laid(text)).toBe(expected === undefined || expected === "" ? expected : `${expected}\n`);
  });

  test("over 100 columns breaks behind commas, as late as it can", () => {
    const hundred = `take ${"a".repeat(45)}, ${"b".repeat(48)}`;
    expect(hundred.length).toBe(100);
    expect(laid(hundred)).toBe(`${hundred}\n`);
    expect(laid(`${hundred}b`)).toBe(`take ${"a".repeat(45)},\n    ${"b".repeat(49)}\n`);
    expect(laid(`x {\n${hundred}\n}`)).toBe(`x {\n  take ${"a".repeat(45)},\n      ${"b".repeat(48)}\n}\n`);
    expect(laid(`take ${"a".repeat(120)}, b, c`)).toBe(`take ${"a".repeat(120)},\n    b, c\n`);
    const call = `let x = min(${"a".repeat(60)}, ${"b".repeat(60)})`;
    expect(laid(call)).toBe(`let x = min(${"a".repeat(60)},\n    ${"b".repeat(60)})\n`);
  });

  test("the edition goes to the first line, its note and its comment with it", () => {
    expect(laid("# head\nplan {\n}\n## why\nisthmus 1 # one\n# tail\n")).toBe(
      "## why\nisthmus 1 # one\n# head\nplan {\n}\n# tail\n",
    );
    expect(laid("# head\n\nisthmus 1\nplan {\n}\n")).toBe("# head\n\nisthmus 1\nplan {\n}\n");
    expect(laid("\ufeffside left\nisthmus 1")).toBe("\ufeffisthmus 1\nside left\n");
  });

  test("the line end and the byte-order mark stay", () => {
    expect(laid("side  left\r\nbone tibia\n")).toBe("side left\r\nbone tibia\r\n");
    expect(laid("side  left\rbone tibia")).toBe("side left\rbone tibia\r");
    expect(laid("\ufeffside  left")).toBe("\ufeffside left\n");
    expect(laid('summary """a\r\nb"""\nside left')).toBe('summary """a\r\nb"""\nside left\n');
  });
});

describe("it says no", () => {
  test.each([
    ["side ?", "a broken statement"],
    ["plan {\n  side left, \n}", "a comma left behind"],
    ["plan {\n", "a missing brace"],
    ["plan {\n}\n}", "a brace too many"],
    ["plan\n  side left\n}", "a missing opening brace"],
    ["ream 8,5 mm", "a decimal comma"],
    ["gap 3 mm ± 1", "a unit left out"],
    ["side \u200bleft", "a hidden character"],
    ['plan "x', "an open text"],
    ["side left ## n", "a note in the wrong place"],
    [`a ${"(".repeat(65)}1${")".repeat(65)}`, "too deep"],
    ["a\n".repeat(100_001), "too long"],
  ])("to %j: %s", (text) => {
    expect(laid(text)).toBeUndefined();
  });

  test("but not to a hidden character in a text, or a note that belongs to nothing", () => {
    expect(laid('summary   "a\u200bb"')).toBe('summary "a\u200bb"\n');
    expect(laid("##   n")).toBe("##   n\n");
  });
});

/** Documents of any shape the grammar knows, in any spacing it allows. */
const blank = fc.constantFrom(" ", "  ", "\t", "   ");
const gap = fc.constantFrom("", " ", "  ", "\t");
const word = fc.constantFrom("a", "plan", "nail", "lock", "knee-flexion", "TN-0417", "P1", "ap", "constructor", "let");
const digits = fc.constantFrom("0", "1", "1.0", "12", "2.50", "007", "1e-3", "345");
const unit = fc.constantFrom("mm", "deg", "°", "%", "percent", "week", "weeks", "turns", "kg", "mmHg");
const quantity = fc.oneof(
  digits,
  fc.tuple(digits, gap, unit).map((all) => all.join("")),
  fc.tuple(digits, gap, unit, gap, fc.constantFrom("±", "+-"), gap, digits, gap, unit).map((all) => all.join("")),
  fc.tuple(digits, gap, fc.constant("±"), gap, digits, gap, unit).map((all) => all.join("")),
);
const { expression } = fc.letrec<{ expression: string; value: string }>((tie) => ({
  value: fc.oneof(
    { depthSize: "small" },
    quantity,
    word,
    fc.tuple(fc.constant("("), gap, tie("expression"), gap, fc.constant(")")).map((all) => all.join("")),
    fc
      .tuple(word, fc.constant("("), gap, tie("expression"), gap, fc.constant(","), gap, tie("expression"))
      .map((all) => `${all.join("")})`),
    tie("value").map((value) => `-${value}`),
    fc.tuple(tie("value"), blank, fc.constant("on"), blank, word).map((all) => all.join("")),
  ),
  expression: fc.oneof(
    tie("value"),
    fc.tuple(tie("value"), blank, fc.constantFrom("+", "-", "*", "/"), blank, tie("value")).map((all) => all.join("")),
  ),
}));
const text = fc.constantFrom('"t"', '""', '"a  \\" b"', '"""x"""', '"""\n    x\n      y  \n"""', '"# no"', '"{"');
const item = fc.oneof(
  { weight: 4, arbitrary: word },
  { weight: 4, arbitrary: expression },
  { weight: 1, arbitrary: text },
  fc.constantFrom("42A2", "42A2(b)[9]", "2026-03-02", "="),
  fc.tuple(expression, blank, fc.constant("to"), blank, expression).map((all) => all.join("")),
);
const comma = fc.constantFrom(",", ", ", " ,  ", ",\n      ", ", # c\n      ", ",\n  # d\n\t\t");
const phrase = fc.tuple(fc.array(word, { maxLength: 2 }), item).map(([words, last]) => [...words, last].join("  "));
const line = fc
  .tuple(word, fc.array(fc.tuple(comma, phrase), { maxLength: 4 }), fc.option(phrase, { nil: "" }))
  .map(([head, rest, first]) => `${head} ${first}${rest.flat().join("")}`);
const ending = fc.constantFrom("\n", "  \n", " # e\n", "#e  \n", "\n\n", "\n\n\n", "\n# own\n", "\n\n   # own  \n\n");
const before = fc.constantFrom("", "", "", "  ", "\t", "## note\n", "  ## one\n##two\n", "\n## three  \n\n");
const { block } = fc.letrec<{ block: string }>((tie) => ({
  block: fc
    .array(
      fc.oneof(
        { depthSize: "small" },
        fc.tuple(before, line, ending).map((all) => all.join("")),
        fc
          .tuple(before, line, fc.constantFrom("{", " {", " { # f"), ending, tie("block"), before, ending)
          .map(
            ([lead, head, open, end, inner, last, after]) => `${lead}${head} ${open}${end}${inner}${last}\n}${after}`,
          ),
      ),
      { maxLength: 4 },
    )
    .map((all) => all.join("")),
}));
const edition = fc.constantFrom("", "", "isthmus 1\n", "\ufeff", "\ufeff# x\nisthmus   1\n");
const documents = fc
  .tuple(edition, block, fc.constantFrom("", "isthmus 1", "## end\n"), fc.constantFrom("\n", "\r\n", "\r"))
  .map(([first, body, last, end]) => `${first}${body}${last}`.replaceAll("\n", end));

/** The tree as drawn, without the line of the edition, which may move. */
function drawn(source: string): string[] {
  return sketch(parse(source).tree)
    .split("\n")
    .filter((row) => !/^isthmus\b/.test(row));
}

function comments(source: string): string[] {
  return parse(source)
    .tree.comments.map(({ text: own }) => own.trimEnd())
    .sort();
}

describe("laws", () => {
  test("on any document of the grammar: taken, idempotent, the tree and the comments kept, digits as typed", () => {
    let taken = 0;
    let tried = 0;
    fc.assert(
      fc.property(documents, (source) => {
        tried += 1;
        const result = laid(source);
        if (result === undefined) {
          expect(parse(source).problems.filter(({ slug, mild }) => slug !== "note-adrift" && !mild)).not.toEqual([]);
          return;
        }
        taken += 1;
        expect(laid(result)).toBe(result);
        expect(drawn(result)).toEqual(drawn(source));
        expect(comments(result)).toEqual(comments(source));
        expect(numberTexts(result)).toEqual(numberTexts(source));
        expect(result.endsWith(source.includes("\r\n") ? "\r\n" : source.includes("\r") ? "\r" : "\n")).toBe(
          /[^\ufeff\s]/.test(source),
        );
      }),
      { numRuns: 5000 },
    );
    expect(taken / tried).toBeGreaterThan(0.5);
  });

  test("on anything at all: no throw, and what comes out stays as it is", () => {
    const parts = [
      "a",
      "{",
      "}",
      "{\n",
      "}\n",
      "\n",
      "\n\n",
      " ",
      ", ",
      ",\n",
      "# c",
      "## n",
      "1",
      "mm",
      "(",
      ")",
      '"t"',
      "-",
      "isthmus 1",
    ];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...parts), { maxLength: 40 }), (all) => {
        const result = laid(all.join(""));
        if (result !== undefined) expect(laid(result)).toBe(result);
      }),
      { numRuns: 10_000 },
    );
  });
});

/** Digits as typed, in any order: the edition's line may have moved. */
function numberTexts(source: string): string[] {
  const found: string[] = [];
  JSON.stringify(parse(source).tree, (key, value) => {
    if ((key === "number" || key === "plusMinus") && value !== undefined) found.push(value.text);
    return value;
  });
  return found.sort();
}
