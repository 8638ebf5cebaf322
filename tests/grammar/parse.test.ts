/** What is read from a text that is written well, and which problem each single mistake in a line gives. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import {
  exampleCatalogue as catalogue,
  examplePlan as plan,
  exampleProtocol as protocol,
} from "../../server/findings/example.ts";
import { badSpans, numbersIn, sketch } from "./sketch.ts";

function read(text: string): string {
  const { tree, problems } = parse(text);
  expect(problems).toEqual([]);
  return sketch(tree);
}

/** The text with the first ready repair of each problem done. */
function repaired(text: string): string {
  const edits = parse(text).problems.flatMap(({ repairs }) => repairs?.[0]?.edits ?? []);
  return edits
    .toSorted((a, b) => b.span.start - a.span.start)
    .reduce((whole, { span, text: put }) => whole.slice(0, span.start) + put + whole.slice(span.end), text);
}

function facts(text: string, problem: Problem): string {
  const expected = problem.expected === undefined ? "" : ` (${problem.expected.join(" | ")})`;
  return `${problem.slug} "${text.slice(problem.span.start, problem.span.end)}"${expected}`;
}

describe("a line", () => {
  test.each([
    ["side left", "side left"],
    ["ream 8.5 mm, 9 mm", "ream 8.5mm, 9mm"],
    ["ream 8.5mm to 11 mm by 0.5 mm", "ream [8.5mm to 11mm by 0.5mm]"],
    ["limit x -2 mm to 2 mm", "limit x [neg(2mm) to 2mm]"],
    ["fracture 42A2, from 208 mm on ap to 232 mm on ap", "fracture code:42A2, from [(208mm on ap) to (232mm on ap)]"],
    ["gap 3 mm ± 1 mm", "gap 3mm±1mm"],
    ["gap 3 ± 1 mm", "gap 3mm±1mm"],
    ["gap 3±1mm", "gap 3mm±1mm"],
    ["gap 3 mm +- 1 cm", "gap 3mm±1cm"],
    ["angle 4°, share 5%, 6 percent, 1 week", "angle 4deg, share 5%, 6%, 1weeks"],
    ["let x = plafond - 45 mm", "let x = (plafond - 45mm)"],
    ["let x = a + b - c", "let x = ((a + b) - c)"],
    ["let x = a + 2 * b / 3 - c", "let x = ((a + ((2 * b) / 3)) - c)"],
    ["let x = a - b - c * d * e", "let x = ((a - b) - ((c * d) * e))"],
    ["let x = (a + b) * 2", "let x = (group((a + b)) * 2)"],
    ["let x = a + b on ap", "let x = (a + (b on ap))"],
    ["let x = -3 mm on ap - -b", "let x = ((neg(3mm) on ap) - neg(b))"],
    ["let x = --b", "let x = neg(neg(b))"],
    ["let x = - 3 mm", "let x = neg(3mm)"],
    ["let x = min(3 mm, a + b, max()) / 2", "let x = (min(3mm; (a + b); max()) / 2)"],
    ["let x = round-down(352 mm, 15 mm)", "let x = round-down(352mm; 15mm)"],
    ["landmark joint (4 mm + 2 mm)", "landmark joint group((4mm + 2mm))"],
    ["reviewed 2026-03-02 4F2A 42A2(b)[9]", "reviewed date:2026-03-02 code:4F2A code:42A2(b)[9]"],
    ["isthmus 1", "isthmus 1"],
    ["mm 3 mm", "mm 3mm"],
    ["toString constructor, hasOwnProperty", "toString constructor, hasOwnProperty"],
    ['summary "a \\"b\\" \\\\ \\n c"', 'summary "a \\"b\\" \\\\ \\n c"'],
    ['summary ""', 'summary ""'],
    ['summary """"""', 'summary ""'],
    ['summary """one"""', 'summary "one"'],
    ['summary """\n    one\n      two\n\n    three\n  """', 'summary "one\\n  two\\n\\nthree"'],
    ['summary """one\r\n  two"""', 'summary "one\\ntwo"'],
    ['summary "ä 😀 − ° µ"', 'summary "ä 😀 − ° µ"'],
    ["take D1,\n  D2,\n\t# why\n  P1", "take D1, D2, P1"],
    ["take D1, # near\nD2", "take D1, D2"],
    ["let x = min(a,\n  b)", "let x = min(a; b)"],
  ])("%j", (text, expected) => {
    expect(read(text)).toBe(expected);
  });

  test.each([
    ["side left ?", 'unreadable "?"'],
    ["8.5 mm", 'unreadable "8.5" (the word of a statement)'],
    ["ream 8.5mn", 'unreadable "8.5mn"'],
    ["ream 0x10", 'unreadable "0x10"'],
    ["ream 1_0", 'unreadable "1_0" (a number)'],
    ["ream 8 9 mm", 'unreadable "8 9" (a unit or a comma between two numbers)'],
    ["ream 1e400 mm", 'unreadable "1e400" (a number of at most 32 digits, 0 or between 1e-15 and 1e15)'],
    ["ream .5 mm", 'unreadable ".5"'],
    ["ream 12. mm", 'unreadable "12."'],
    ["ream 5-3", 'unreadable "5-3"'],
    ["let x = 9 mm -3 mm", 'unreadable "-" (a minus with a space on both sides | a comma)'],
    ["let x = 9 mm - ", 'unreadable "-" (a value)'],
    ["let x = (9 mm", 'unreadable "mm" (a closing ))'],
    ["let x = 9 mm)", 'unreadable ")" (an opening ()'],
    ["let x = ()", 'unreadable ")" (a value)'],
    ["let x = min(a,)", 'unreadable ")" (a value)'],
    ["let x = min(a b)", 'unreadable "b" (a closing ))'],
    ["let x = 3 mm on", 'unreadable "on" (the name of a view)'],
    ["let x = 3 mm on 4", 'unreadable "4" (the name of a view)'],
    ["let x = + 3", 'unreadable "+" (a value before +)'],
    ["ream 8 mm to", 'unreadable "to" (a value)'],
    ["ream 8 mm by 1 mm", 'unreadable "by" (a value before by)'],
    ["ream mm", 'unreadable "mm" (a number before its unit)'],
    ["gap ± 3 mm", 'unreadable "±" (a number before the ±)'],
    ["gap 3 mm ± x", 'unreadable "x" (a number behind the ±)'],
    ["gap 3 mm ± 1", 'unit-missing "3 mm ± 1" (a unit behind the number after the ±)'],
    ["gap 3 ± 1", 'unit-missing "3 ± 1" (a unit behind the number after the ±)'],
    ["gap 3 mm, ", 'unreadable "," (something behind the comma)'],
    ["gap , 3 mm,, 4 mm", 'unreadable "," (something behind the comma)'],
    ['gap "x', 'unreadable ""x" (a closing ")'],
    ['gap "x\\', 'unreadable ""x\\" (a closing ")'],
    ['gap "a\\qb"', 'unreadable "\\q" (\\" | \\\\ | \\n)'],
    ["gap “x”", 'unreadable "“x”" (a text in straight double quotes)'],
    ["gap 'x'", "unreadable \"'x'\" (a text in straight double quotes)"],
    ["gap 3 \u2212 4", 'unreadable "\u2212"'],
    ["gap \u22123 mm", 'unreadable "\u22123"'],
    ["gap 3\u20134 mm", 'unreadable "3\u20134"'],
    ["gap １２ mm", 'unreadable "１２"'],
    ["gap ٣ mm", 'unreadable "٣"'],
    ["gap 45º", 'unreadable "45º"'],
    ["gap 45\u00a0mm", 'unreadable "45\u00a0mm"'],
    ["gap 3 µm", 'unreadable "µm"'],
    ["gap näil", 'unreadable "näil"'],
    ["gap 42a2", 'unreadable "42a2"'],
    ["side left ## note", 'unreadable "## note" (a note on a line of its own before its statement)'],
  ])("%j has one problem", (text, expected) => {
    const { tree, problems } = parse(text);
    expect(problems.map((problem) => facts(text, problem))).toEqual([expected]);
    expect(tree.statements.length).toBe(1);
    if (!text.includes("##")) expect(tree.statements[0]?.broken).toBe(true);
  });

  test.each([
    ["ream 8,5 mm", "ream 8.5 mm"],
    ["ream 1'000 mm", "ream 1000 mm"],
    ["ream .5 mm", "ream 0.5 mm"],
    ["ream 12. mm", "ream 12 mm"],
    ["ream 5-3", "ream 5 - 3"],
    ["let x = 9 mm -3 mm", "let x = 9 mm - 3 mm"],
    ["let x = (9 mm)-3 mm", "let x = (9 mm) - 3 mm"],
    ["gap 3 \u2212 4", "gap 3 - 4"],
    ["gap \u22123 mm", "gap -3 mm"],
    ["gap １２ mm", "gap 12 mm"],
    ["gap ٣٤ mm, ७ mm", "gap 34 mm, 7 mm"],
    ["gap 45º", "gap 45°"],
    ["gap 45\u00a0mm", "gap 45 mm"],
    ["gap\u00a045 mm", "gap 45 mm"],
    ["gap 42a2", "gap 42A2"],
    ["gap “x”", 'gap "x"'],
    ['gap "x', 'gap "x"'],
    ['gap "a\\qb"', 'gap "a\\\\qb"'],
    ["gap 3 mm ± 1", "gap 3 mm ± 1 mm"],
    ["gap 3 mm,", "gap 3 mm"],
    ["gap 3\u200b mm", "gap 3 mm"],
    ["a {\n}\n}", "a {\n}\n"],
  ])("%j is repaired to %j", (text, better) => {
    expect(repaired(text)).toBe(better);
    expect(parse(better).problems).toEqual([]);
  });

  test("what stands before a mistake in its phrase stays, and so do the other phrases", () => {
    const { tree } = parse("position supine lateral 3 mm ? 4, knee 100 deg");
    expect(sketch(tree)).toBe("position supine lateral <3 mm ? 4>, knee 100deg !");
  });

  test("a number in a broken phrase is nowhere in the tree", () => {
    for (const text of ["x 3 mm ? 4 mm", "x 3 mm + , y", "x min(3 mm 4", "x 3mn", "x 3 mm ± 1", "x 1e99 mm + 4 mm"]) {
      expect(numbersIn(parse(text).tree)).toEqual([]);
    }
  });
});

describe("notes and comments", () => {
  const text = '# one\n## n1\n##n2\n### three\nplan "x" { # two\n  ## n3\n\n  a # four\n  ## n4\n} # five\n## n5\n##';
  const parsed = parse(text);

  test("notes stand with the statement after them, or adrift", () => {
    expect(sketch(parsed.tree)).toBe('## n1\n## n2\nplan "x" {\n  ## n3\n  a\n  ## n4\n}\n## n5\n## ');
    expect(parsed.problems.map((problem) => facts(text, problem))).toEqual(
      ["## n4", "## n5", "##"].map((note) => `note-adrift "${note}" (a statement after the note)`),
    );
  });

  test("comments keep their text, and know whether they stand alone", () => {
    expect(parsed.tree.comments.map(({ text: own, alone }) => [own, alone])).toEqual([
      ["# one", true],
      ["### three", true],
      ["# two", false],
      ["# four", false],
      ["# five", false],
    ]);
  });
});

describe("line ends", () => {
  test.each(["\r\n", "\r"])("%j makes the same tree as a line feed, and so does a byte-order mark", (end) => {
    for (const text of [plan, catalogue, protocol]) {
      const expected = sketch(parse(text).tree);
      expect(sketch(parse(text.replaceAll("\n", end)).tree)).toBe(expected);
      expect(sketch(parse(`\ufeff${text}`).tree)).toBe(expected);
      expect(parse(`\ufeff${text}`).problems).toEqual([]);
    }
  });

  test("a byte-order mark elsewhere is a hidden character", () => {
    expect(parse("a \ufeff b").problems.map(({ slug }) => slug)).toEqual(["hidden-character"]);
  });
});

describe("hidden characters", () => {
  const directions = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069";
  const others =
    "\u200b\u200c\u200d\u2060\u00ad\ufe00\ufe0f\u2028\u2029\u0085\u0000\u0007\u000b\u000c\u001b\u007f\u009f\u180e";
  const all = [...directions, ...others, "\u{e0001}", "\u{e0041}", "\u{e007f}", "\u{e0100}"];

  test.each(all.map((sign) => [sign]))("%j is an error in the language and milder in texts", (sign) => {
    expect(parse(`side left${sign}`).problems).toMatchObject([{ slug: "hidden-character" }]);
    expect(parse(`side left${sign}`).problems[0]?.mild).toBeUndefined();
    expect(parse(`side left${sign}`).tree.statements[0]?.broken).toBe(true);
    for (const text of [`side "a${sign}b"`, `side """a${sign}b"""`, `side # a${sign}b`, `## a${sign}b\nside`]) {
      expect(parse(text).problems).toMatchObject([{ slug: "hidden-character", mild: true }]);
      expect(parse(text).tree.statements[0]?.broken).toBe(false);
    }
  });

  test("anywhere in a plan they are told, and taking them away gives the plan back", () => {
    const ends = plan.length;
    fc.assert(
      fc.property(fc.nat(ends), fc.constantFrom(...all), (at, sign) => {
        const text = plan.slice(0, at) + sign + plan.slice(at);
        if (at === 0 && sign === "\ufeff") return;
        const hidden = parse(text).problems.filter(({ slug }) => slug === "hidden-character");
        expect(hidden.map(({ span }) => [span.start, span.end])).toEqual([[at, at + sign.length]]);
        expect(repaired(text)).toBe(plan);
      }),
      { numRuns: 500 },
    );
  });

  test("digits that a hidden character parts do not become a number", () => {
    expect(numbersIn(parse("ream 1\u200b2 mm").tree)).toEqual([]);
  });
});

describe("limits", () => {
  test.each([
    ["parentheses", `a ${"(".repeat(100_000)}`, "too-deep"],
    ["calls", `a ${"min(".repeat(40_000)}`, "too-deep"],
    ["operators", `a 1${" + 1".repeat(90_000)}`, "too-deep"],
    ["signs", `a ${"- ".repeat(100_000)}1`, "too-deep"],
    ["blocks", "a {\n".repeat(60_000), "too-deep"],
    ["opening and operators", `a ${"(+".repeat(100_000)}`, "too-long"],
    ["characters", "a".repeat(1_000_001), "too-long"],
    ["tokens", "a\n".repeat(100_001), "too-long"],
  ])("%s without end give a problem, no overflow", (_, text, slug) => {
    const { problems, tree } = parse(text);
    expect(problems.map((problem) => problem.slug)).toContain(slug);
    expect(JSON.stringify(tree).length).toBeGreaterThan(0);
  });

  test("64 levels are read", () => {
    const deep = `a ${"(".repeat(64)}1${")".repeat(64)}\n${"b {\n".repeat(64)}${"}\n".repeat(64)}`;
    expect(parse(deep).problems).toEqual([]);
    expect(parse(deep.replace("(", "((").replace(")", "))")).problems.map(({ slug }) => slug)).toEqual(["too-deep"]);
    expect(parse(`c {\n${deep}}\n`).problems.map(({ slug }) => slug)).toEqual(["too-deep"]);
  });

  test("after a block too deep to be read the text goes on", () => {
    const deep = `${"a {\n".repeat(70)}x\n${"}\n".repeat(70)}b 3 mm`;
    expect(sketch(parse(deep).tree).endsWith("\nb 3mm")).toBe(true);
  });

  test("at most 200 problems are kept, and the last says how many more there are", () => {
    const { problems } = parse("a ?\n".repeat(1000));
    expect(problems.length).toBe(200);
    expect(problems.at(-1)?.found).toBe("801 more places");
    expect(parse("a ?\n".repeat(200)).problems.every(({ found }) => found === "?")).toBe(true);
  });

  /** Near the limits; a step that looks back over the text each time would take minutes. */
  test.each([
    ...[
      "a ?\n",
      "a (\n",
      "8 mm\n",
      "a 8,5 mm\n",
      "a!",
      '"""\n',
      "}\n",
      "a,\n",
      "a,\n#\n",
      "\u200b ",
      "## n\n",
      "} ## n\n",
    ],
    ...[
      "a 8 +\n",
      "- ",
      "min(a, ",
      '"',
      "1.",
      "1,",
      "\n",
      "“",
      "a-",
      "a {\n} ",
      "a {\n",
      "{",
      "a\n{\n",
      "\u0669",
      "'a'",
    ],
  ])("%j over and over takes no more than its share of time", (part) => {
    const from = performance.now();
    parse(part.repeat(Math.floor(190_000 / part.length)));
    expect(performance.now() - from).toBeLessThan(10_000);
  });
});

describe("laws", () => {
  const parts = [
    "a",
    "plan",
    "case",
    "side",
    "ask",
    "mm",
    "%",
    "to",
    "by",
    "on",
    "1",
    "8,5",
    "1 000",
    "42A2",
    "2026-03-02",
  ];
  const marks = [
    ..."{}(),=+-*/±°\"'#?",
    '"""',
    "##",
    "\n",
    "\r\n",
    " ",
    "  ",
    " - ",
    "min(",
    "\u200b",
    "é",
    '"t"',
    "{\n",
    "}\n",
  ];
  const texts = fc.array(fc.constantFrom(...parts, ...marks), { maxLength: 60 }).map((all) => all.join(""));

  function lawful(text: string): void {
    const { tree, problems, text: kept } = parse(text);
    const whole = { start: 0, end: text.length };
    expect(kept).toBe(text);
    expect(badSpans(tree, whole)).toEqual([]);
    for (const problem of problems) expect(badSpans({ span: problem.span }, whole)).toEqual([]);
    for (const { edits } of problems.flatMap(({ repairs }) => repairs ?? []))
      expect(badSpans(edits, whole)).toEqual([]);
    const starts = problems.map(({ span }) => span.start);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
    expect(problems.filter(({ slug, found, expected }) => slug === "unreadable" && !found && !expected)).toEqual([]);
  }

  test("any text is read: spans nest, problems stand in order, the grammar takes every token", () => {
    fc.assert(fc.property(fc.string({ unit: "binary", maxLength: 300 }), lawful), { numRuns: 3000 });
  });

  test("any text of the language's own parts is read", () => {
    fc.assert(fc.property(texts, lawful), { numRuns: 10_000 });
  });

  test.each([
    ["plan", plan],
    ["catalogue", catalogue],
    ["protocol", protocol],
  ])("every prefix of the %s is read", (_, text) => {
    for (let length = 0; length <= text.length; length += 1) lawful(text.slice(0, length));
    expect(parse(text).problems).toEqual([]);
  });

  test("a broken statement always has its problem, and a clean text no broken statement", () => {
    fc.assert(
      fc.property(texts, (text) => {
        const { tree, problems } = parse(text);
        const broken =
          JSON.stringify(tree).includes('"broken":true') || JSON.stringify(tree).includes('"kind":"broken"');
        if (broken) expect(problems.filter(({ mild }) => mild !== true)).not.toEqual([]);
      }),
      { numRuns: 5000 },
    );
  });

  test("the same text gives the same result, whatever was read between", () => {
    fc.assert(
      fc.property(texts, texts, (one, other) => {
        const before = parse(one);
        parse(other);
        expect(parse(one)).toEqual(before);
      }),
    );
  });
});
