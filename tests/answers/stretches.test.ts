/** Stretches of a text: folds, growing selections, colours held to the vocabulary, links, symbols, signatures, layout of parts. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lex } from "../../grammar/tokens.ts";
import { foldsIn } from "../../server/answers/folding.ts";
import { formattingEditsIn, formattingEditsTyped } from "../../server/answers/formatting-part.ts";
import { lensesOf } from "../../server/answers/lenses.ts";
import { symbolsMatching } from "../../server/answers/library-symbols.ts";
import { entryIn, linksIn } from "../../server/answers/links.ts";
import { selectionsAt } from "../../server/answers/selection.ts";
import {
  tokenModifiers,
  tokensIn,
  tokenTypes,
  typeOfLexKind,
  typeOfName,
} from "../../server/answers/semantic-tokens.ts";
import { signatureAt } from "../../server/answers/signature.ts";
import { citationsIn } from "../../server/meaning/citations.ts";
import { analyseText, applied, cursorIn, sampleText, sampleWith } from "../check.ts";
import { bracketed, changes, marked, sampleFacts } from "./editor-checks.ts";
import { samplePaths } from "./mutations.ts";

const path = "plans/simple-shaft.isthmus";
const plan = sampleText(path);

describe("folds", () => {
  const folded = (text: string): string[] =>
    foldsIn(analyseText(text)).map(({ span, kind, summary }) => {
      const [first] = text
        .slice(0, span.end)
        .slice(text.lastIndexOf("\n", span.start - 1) + 1)
        .split("\n");
      return [first?.trim(), kind, summary].filter((part) => part !== undefined).join(" » ");
    });

  test("blocks with what they hold", () => {
    expect(folded(plan)).toEqual([
      'plan "Transverse fracture of the right tibial shaft" { » block » 10 lines',
      "case HB-2201 { » block » 10 lines, at 173.21 mm ± 0.93 mm",
      "images { » block » 2 lines, × 1.1200 ± 0.0060",
      "measures { » block » 10 lines, at 352.7 mm ± 2.6 mm",
      "operation { » block » 15 steps, tip at 339 mm",
      "aftercare { » block » 3 lines, gradient 52 mmHg",
      "removal { » block » 5 steps",
    ]);
  });

  test("runs of notes and comments, and texts over several lines; not what stands in one line", () => {
    const text = 'isthmus 1\n# a\n# b\n\n# c\nplan "x" {\n  ## d\n  ## e\n  summary """\n    f\n    """\n}\n';
    expect(folded(text)).toEqual([
      "# a » comment",
      'plan "x" { » block » 1 line',
      "## d » comment",
      'summary """ » block',
    ]);
  });

  test("an empty block and one that is not closed", () => {
    expect(folded('isthmus 1\nplan "x" { }\n')).toEqual([]);
    expect(folded('isthmus 1\nplan "x" {\n  status draft\n')).toHaveLength(1);
  });
});

test("selections grow from the number to the text, each within the next", () => {
  const { analysis, cursor, text } = marked(cursorIn("canal at 200 mm, width 1$02 mm ± 0.3 mm on ap"));
  const spans = selectionsAt(analysis, cursor);
  expect(spans.slice(0, 4).map(({ start, end }) => text.slice(start, end))).toEqual([
    "12",
    "12 mm ± 0.3 mm",
    "12 mm ± 0.3 mm on ap",
    "width 12 mm ± 0.3 mm on ap",
  ]);
  for (const [index, span] of spans.entries()) {
    const next = spans[index + 1];
    if (next === undefined) continue;
    expect(next.start <= span.start && span.end <= next.end).toBe(true);
    expect(next.end - next.start).toBeGreaterThan(span.end - span.start);
  }
  expect(spans.at(-1)).toEqual({ start: 0, end: text.length });
});

describe("colours", () => {
  test("the legend holds the types that the vocabulary's parts and the samples use, and no other", () => {
    const used = new Set<string>(["keyword", "property", "function"]);
    for (const type of [...Object.values(typeOfName), ...Object.values(typeOfLexKind)])
      if (type !== undefined) used.add(type);
    expect([...used].sort()).toEqual([...tokenTypes].sort());
    const texts = [...samplePaths.map((each) => [sampleText(each), `../${each}`] as const)];
    const waived = sampleWith(
      path,
      [
        "  status for-review\n",
        '  let a = max(1 mm, 2 mm)\n  waive cap-missing, because "a", signed "b"\n  reviewed "a", dated 2026-03-02, seal "b"\n',
      ],
      ["sunk 9 mm", "sunk a + 7 mm"],
    );
    const found = [...texts, [waived, "checked.isthmus"] as const].flatMap(([text, name]) =>
      tokensIn(analyseText(text, name), { start: 0, end: text.length }),
    );
    expect([...new Set(found.map(({ type }) => type))].sort()).toEqual([...tokenTypes].sort());
    expect([...new Set(found.flatMap(({ modifiers }) => modifiers))].sort()).toEqual([...tokenModifiers].sort());
  });

  test("every word of a sample without a mistake has a token, in order and apart", () => {
    for (const each of samplePaths.filter((name) => !name.includes("mistakes"))) {
      const text = sampleText(each);
      const tokens = tokensIn(analyseText(text, `../${each}`), { start: 0, end: text.length });
      const starts = new Set(tokens.map(({ span }) => span.start));
      const bare = lex(text).filter(({ kind, span }) => kind === "word" && !starts.has(span.start));
      // The case's label is a name that nothing else says.
      expect(bare.map(({ text: word }) => word).filter((word) => !/^[A-Z]{2}-\d{4}$/.test(word))).toEqual([]);
      for (const [index, { span }] of tokens.entries())
        expect(span.start).toBeGreaterThanOrEqual(tokens[index - 1]?.span.end ?? 0);
    }
  });

  test("a name that nothing gives and a word that is none have no token", () => {
    const text = sampleWith(path, ["lock D2, drilled", "lock Q7, drilled"], ["bone-quality good", "bone-quality fine"]);
    const tokens = tokensIn(analyseText(text), { start: 0, end: text.length });
    expect(tokens.some(({ span }) => ["Q7", "fine"].includes(text.slice(span.start, span.end)))).toBe(false);
  });
});

describe("links", () => {
  test("paths without their quotes, and citations in notes and texts", () => {
    const text = sampleWith(
      path,
      ["  status for-review\n", '  sources "a.bib"\n'],
      ["Chatter", "[@one; @two:b] Chatter"],
    );
    expect(
      bracketed(
        text,
        linksIn(analyseText(text)).map(({ span }) => span),
      ),
    ).toEqual([
      'use "[../catalogue/tarnbeck.isthmus]"',
      'follow "[../protocol/ellerby.isthmus]"',
      'sources "[a.bib]"',
      "## [[@one]; @two:b] Chatter starts at the isthmus; let the reamer do the work and never push.",
      "## [@one; [@two:b]] Chatter starts at the isthmus; let the reamer do the work and never push.",
    ]);
  });

  test("an address that only looks like a citation is none; an entry is found by its key", () => {
    expect(citationsIn("## a@b.c [not@this] [@this]\n").map(({ key }) => key)).toEqual(["this"]);
    const bibliography = "@comment{x}\n\n@article{one,\n title={@book{two,}}\n}\n  @book { two ,\n}\n";
    expect(bibliography.slice(entryIn(bibliography, "one"))).toMatch(/^@article\{one/);
    expect(bibliography.slice(entryIn(bibliography, "two"))).toMatch(/^@book \{ two/);
    expect(entryIn(bibliography, "three")).toBeUndefined();
  });
});

test("symbols are found by letters in their order, whatever their case", () => {
  const facts = sampleFacts("catalogue/tarnbeck.isthmus", path);
  const names = (query: string): string[] => symbolsMatching(facts, query).map(({ name, kind }) => `${kind} ${name}`);
  expect(names("TARN").slice(0, 2)).toEqual(["catalogue Tarnbeck, an invented set", "nail tarnbeck"]);
  expect(names("scar")).toContain("landmark scar");
  expect(names("zq")).toEqual([]);
  expect(names("").length).toBeGreaterThan(10);
});

describe("signatures", () => {
  const shown = (source: string): string => {
    const { analysis, cursor } = marked(source);
    const found = signatureAt(analysis, cursor);
    if (found === undefined) return "none";
    const part = found.active === undefined ? undefined : found.parameters[found.active];
    return part === undefined
      ? found.label
      : `${found.label.slice(0, part.start)}«${found.label.slice(part.start, part.end)}»${found.label.slice(part.end)}`;
  };
  test.each([
    ["cap $05 mm\n", "cap «extension»"],
    ["nail tarnbeck, diameter 1$00 mm", "nail name, «diameter diameter», length length, sunk sunk"],
    ["## The far e$0nd first", "none"],
    ["  remo$0val {", "none"],
  ])("%s", (line, expected) => {
    const found = shown(cursorIn(line));
    if (expected === "none") expect(found).toBe("none");
    else
      expect(found.replace(/\W/g, "")).toContain(expected.split("«")[1]?.split("»")[0]?.replace(/\W/g, "").slice(0, 8));
  });

  test.each([
    ["max(4 mm, $05 mm)", "max(«values», …)"],
    ["round-down(9 mm, $01 mm)", "round-down(value, «step»)"],
    ["round-down($09 mm, 1 mm)", "round-down(«value», step)"],
    ["round-down(9 mm, 1 mm, $0)", "round-down(value, step)"],
    ["round-down(max(4 mm, 9 mm), $01 mm)", "round-down(value, «step»)"],
  ])("%s", (typed, expected) => expect(shown(sampleWith(path, ["sunk 9 mm", `sunk ${typed}`]))).toBe(expected));
});

describe("what stands over the head", () => {
  test("counts by grade, and leads to the gravest", () => {
    const text = sampleText("plans/typical-mistakes.isthmus");
    const analysis = analyseText(text, "typical-mistakes.isthmus");
    const [lens] = lensesOf(analysis);
    const errors = analysis.judgement.findings.filter(({ grade, waived }) => grade === "error" && waived === undefined);
    expect(lens?.title.startsWith(`${errors.length} error`)).toBe(true);
    expect(lens?.finding).toBe(errors[0]);
    expect(text.slice(lens?.span.start, lens?.span.end)).toBe("plan");
  });

  test("waived findings are counted apart; none where nothing is found", () => {
    const waived = sampleWith(
      path,
      ["    cap 5 mm\n", ""],
      ["    take cap\n", ""],
      ["  status for-review\n", '  waive cap-missing, because "a", signed "b"\n'],
    );
    expect(lensesOf(analyseText(waived))[0]?.title).toMatch(/1 waived$/);
    expect(lensesOf(analyseText(plan))).toEqual([]);
    expect(lensesOf(analyseText(""))).toEqual([]);
  });
});

describe("layout of parts", () => {
  test("of the lines that are touched, also where lines are put in or taken out elsewhere", () => {
    const text = plan
      .replace("    side right\n", "\n\n  side   right\n")
      .replace("    cap 5 mm\n", "  cap   5mm\n")
      .replace(
        "canal at 60 mm, width 26 mm on ap, depth 24 mm on lateral",
        "canal at 60mm,\n  width 26mm on ap, depth 24mm on lateral",
      );
    const at = text.indexOf("cap   5mm");
    expect(changes(text, formattingEditsIn(analyseText(text), [{ start: at, end: at }]))).toEqual([
      "- cap   5mm",
      "+ cap 5 mm",
    ]);
    const whole = formattingEditsIn(analyseText(text), [{ start: 0, end: text.length }]);
    expect(applied(text, whole)).toBe(
      applied(text, formattingEditsIn(analyseText(text), [{ start: 0, end: text.length }])),
    );
    expect(applied(text, whole)).toContain("    canal at 60 mm, width 26 mm on ap, depth 24 mm on lateral\n");
  });

  test("half of a move is not made", () => {
    const text = `plan "x" {\n  status   draft\n}\nisthmus 1\n`;
    const at = text.indexOf("isthmus 1");
    expect(formattingEditsIn(analyseText(text), [{ start: at, end: at }])).toEqual([]);
  });

  test("any part of any untidy sample leaves a text with the same layout", () => {
    const untidy = samplePaths.map((each) =>
      sampleText(each)
        .replace(/^ {4}/gm, "  \t")
        .replaceAll(", ", ",")
        .replace(/\n {2}(?=\w)/g, "\n\n\n "),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...untidy),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(300),
        (text, share, length) => {
          const start = Math.floor(share * text.length);
          const analysis = analyseText(text);
          const all = formattingEditsIn(analysis, [{ start: 0, end: text.length }]);
          const part = applied(
            text,
            formattingEditsIn(analysis, [{ start, end: Math.min(text.length, start + length) }]),
          );
          const rest = formattingEditsIn(analyseText(part), [{ start: 0, end: part.length }]);
          expect(applied(part, rest)).toBe(applied(text, all));
        },
      ),
      { numRuns: 25 },
    );
  }, 120_000);

  const typed = (source: string, sign: string): string[] => {
    const { analysis, cursor, text } = marked(source);
    return changes(text, formattingEditsTyped(analysis, cursor, sign));
  };

  test("while typing: the line that was finished, the brace's own, and nothing else", () => {
    expect(
      typed(plan.replace("    cap 5 mm\n", "  cap 5mm\n    $0\n").replace("side right", "side   right"), "\n"),
    ).toEqual(["- cap 5mm", "+ cap 5 mm"]);
    const brace = plan.replace("    withdraw nail\n  }\n", "    withdraw nail\n      }$0\n");
    expect(
      applied(brace.replace("$0", ""), formattingEditsTyped(marked(brace).analysis, marked(brace).cursor, "}")),
    ).toBe(plan);
    expect(typed(plan.replace("    cap 5 mm\n", "  cap 5mm$0\n"), "x")).toEqual([]);
  });

  test("while the text cannot be read as a whole only the indent is put right", () => {
    const broken = plan.replace("    cap 5 mm\n", "  cap 5mm\n$0\n").replace("compress 2 turns", "compress (2 turns");
    const { analysis, cursor, text } = marked(broken);
    expect(applied(text, formattingEditsTyped(analysis, cursor, "\n"))).toBe(text.replace("  cap 5mm", "    cap 5mm"));
  });
});
