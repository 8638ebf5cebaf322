/**
 * A mistake costs its own statement at most: braces too many or too few, commas and texts left open, tokens dropped, lines cut.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { lex } from "../../grammar/tokens.ts";
import type { Statement } from "../../grammar/tree.ts";
import {
  exampleCatalogue as catalogue,
  examplePlan as plan,
  exampleProtocol as protocol,
} from "../../server/findings/example.ts";
import { sketch, statementsIn } from "./sketch.ts";

const documents = [
  ["plan", plan],
  ["catalogue", catalogue],
  ["protocol", protocol],
] as const;

/** Where each statement stands and what its own line says; a note may be lost to the line before it. */
function meanings(statements: readonly Statement[], path = ""): string[] {
  return statements.flatMap((statement) => {
    const alone = sketch({
      kind: "tree",
      statements: [{ ...statement, notes: [], block: undefined }],
      comments: [],
      adrift: [],
      span,
    });
    const inner = meanings(statement.block?.statements ?? [], `${path}/${statement.word.name}`);
    return [`${path}: ${alone}`, ...inner];
  });
}
const span = { start: 0, end: 0 };

/** How many of the statements of one text are not found in another, each as often as it stands there. */
function lost(before: string, after: string): string[] {
  const left = meanings(parse(after).tree.statements);
  return meanings(parse(before).tree.statements).filter((meaning) => {
    const at = left.indexOf(meaning);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

describe.each(documents)("the %s", (_, text) => {
  const lines = text.split("\n");

  test("with any token of a line dropped, doubled or half typed loses that line alone", () => {
    let from = 0;
    for (const line of lines) {
      const offset = from;
      from += line.length + 1;
      for (const token of lex(line)) {
        if ("{}".includes(token.text)) continue;
        const start = offset + token.span.start;
        const end = offset + token.span.end;
        const half = start + Math.floor((end - start) / 2);
        for (const [cut, put] of [
          [end, ""],
          [end, `${token.text}${token.text}`],
          [end, text.slice(start, half)],
        ] as const) {
          const changed = text.slice(0, start) + put + text.slice(cut);
          const gone = lost(text, changed).filter((meaning) => !meaning.includes(`/${token.text}`));
          expect(gone.length, changed.slice(offset, offset + line.length + 9)).toBeLessThanOrEqual(1);
        }
      }
    }
  });

  test("cut off behind any token keeps every line above", () => {
    let above = 0;
    for (const [index, line] of lines.entries()) {
      const offset = lines.slice(0, index).join("\n").length + (index > 0 ? 1 : 0);
      for (const token of lex(line)) {
        const cut = text.slice(0, offset + token.span.end);
        const kept = meanings(parse(cut).tree.statements);
        expect(kept.slice(0, above)).toEqual(meanings(parse(text).tree.statements).slice(0, above));
      }
      if (/^ *[A-Za-z]/.test(line)) above += 1;
    }
  });

  test("with any brace dropped keeps all that stands outside its block, and one problem tells where", () => {
    for (let at = text.indexOf("}"); at >= 0; at = text.indexOf("}", at + 1)) {
      const changed = text.slice(0, at) + text.slice(at + 1);
      expect(lost(text, changed), changed.slice(at - 40, at + 40)).toEqual([]);
      const { problems } = parse(changed);
      expect(problems.map(({ slug, expected }) => [slug, expected])).toEqual([["unreadable", ["}"]]]);
    }
  });

  test("with any opening brace dropped keeps every statement", () => {
    for (let at = text.indexOf("{"); at >= 0; at = text.indexOf("{", at + 1)) {
      const changed = text.slice(0, at) + text.slice(at + 1);
      const empty = /\{\n\s*\}/.test(text.slice(at, at + 12));
      expect(lost(text, changed), changed.slice(at - 40, at + 40)).toEqual([]);
      if (!empty) expect(parse(changed).problems.map(({ expected }) => expected)).toEqual([["{"]]);
    }
  });

  test("with a brace too many after any line keeps every statement", () => {
    for (const index of lines.keys()) {
      const changed = lines.toSpliced(index + 1, 0, "}").join("\n");
      expect(lost(text, changed), `behind line ${index + 1}`).toEqual([]);
      expect(parse(changed).problems.filter(({ slug }) => slug !== "note-adrift").length).toBe(1);
    }
  });

  test("with a block opened too many at the end of any line keeps every statement", () => {
    for (const [index, line] of lines.entries()) {
      if (line.trim() === "" || /^ *#|[{}]$/.test(line)) continue;
      const changed = lines.with(index, `${line} {`).join("\n");
      expect(lost(text, changed).length, `at line ${index + 1}`).toBe(0);
      expect(parse(changed).problems.length).toBe(1);
    }
  });
});

describe("a missing brace", () => {
  test("is told at the end of the block that lacks it, and closes no more than it must", () => {
    const text = "plan {\n  case x {\n    side left # here\n\n  measures {\n    landmark a 3 mm\n  }\n}\n";
    const { tree, problems } = parse(text);
    const at = text.indexOf("left") + 4;
    expect(sketch(tree)).toBe(
      "plan {\n  case x {\n    side left\n  (no brace)\n  measures {\n    landmark a 3mm\n  }\n}",
    );
    expect(problems).toMatchObject([
      {
        span: { start: at, end: at },
        found: "measures",
        expected: ["}"],
        inside: "case",
        also: { start: text.indexOf("x {") + 2, end: text.indexOf("x {") + 3 },
      },
    ]);
    const edit = problems[0]?.repairs?.[0]?.edits[0];
    const better = text.slice(0, edit?.span.start) + edit?.text + text.slice(edit?.span.end);
    expect(better).toContain("side left # here\n  }\n");
    expect(parse(better).problems).toEqual([]);
  });

  test("a statement in the wrong place closes nothing while the braces come out even", () => {
    const text = "plan {\n  case x {\n    side left\n    status draft\n    bone tibia\n  }\n}\n";
    expect(parse(text).problems).toEqual([]);
    expect(statementsIn(parse(text).tree.statements).map(({ word }) => word.name)).toEqual([
      "plan",
      "case",
      "side",
      "status",
      "bone",
    ]);
    expect(parse(text).tree.statements[0]?.block?.statements.length).toBe(1);
  });

  test("indentation speaks when another brace is too many", () => {
    const text = "plan {\n  case x {\n    side left\n  measures {\n    landmark a 3 mm\n  }\n}\n}\n";
    expect(sketch(parse(text).tree)).toBe(
      "plan {\n  case x {\n    side left\n  (no brace)\n  measures {\n    landmark a 3mm\n  }\n}",
    );
    expect(parse(text).problems.map(({ expected }) => expected)).toEqual([["}"], ["no closing brace here"]]);
  });

  test("at the end of the text each open block is told", () => {
    const { problems } = parse("plan {\n  case x {\n    side left");
    expect(problems.map(({ found, inside }) => [found, inside])).toEqual([
      ["the end of the text", "case"],
      ["the end of the text", "plan"],
    ]);
  });
});

describe("braces in odd places", () => {
  test.each([
    ["plan { case x { side left } }", "plan {\n  case x {\n    side left\n  }\n}", 1],
    ["plan\n{\n  case x\n  {\n  }\n}", "plan {\n  case x {\n  }\n}", 2],
    ["plan {\n  case x {\n  } }", "plan {\n  case x {\n  }\n}", 1],
    ["{\n  side left\n}", "  ! {\n  side left\n}", 1],
    ["plan {\n}}\nside left", "plan {\n}\nside left", 2],
    ["}", "", 1],
  ])("%j", (text, expected, count) => {
    const { tree, problems } = parse(text);
    expect(sketch(tree)).toBe(expected);
    expect(problems.length).toBe(count);
  });
});

describe("what is left open", () => {
  test("a text ends with its line and leaves the brace to the block", () => {
    const text = 'plan "An oblique fracture {\n  status draft\n}\n';
    expect(sketch(parse(text).tree)).toBe('plan <"An oblique fracture> ! {\n  status draft\n}');
    expect(parse(text).problems.length).toBe(1);
  });

  test("a block text ends before the first line indented no deeper", () => {
    const text = 'plan "x" {\n  summary """One\n    two\n\n    three\n  status draft\n}\n';
    const { tree, problems } = parse(text);
    expect(sketch(tree)).toBe('plan "x" {\n  summary <"""One\n    two\n\n    three> !\n  status draft\n}');
    expect(problems).toMatchObject([{ slug: "unreadable", expected: ['a closing """'] }]);
  });

  test("a block text without a later line goes to the end of the text", () => {
    expect(parse('summary """One\n  two\n').tree.statements[0]?.broken).toBe(true);
    expect(parse('summary """One\n  two\n').problems.length).toBe(1);
  });

  test.each([
    ["before a statement of the block", "ream 8 mm,\n  nail x", "ream 8mm, <> !\n  nail x"],
    ["before a blank line", "take D1,\n\n  x", "take D1, <> !\n  x"],
    ["before a closing brace", "take D1,", "take D1, <> !"],
    ["of a word half typed", "rea 8 mm,\n  nail x", "rea 8mm, <> !\n  nail x"],
    ["before a note", "ream 8 mm,\n  ## why\n  nail x", "ream 8mm, <> !\n  ## why\n  nail x"],
  ])("a comma left %s costs its statement alone", (_, inner, expected) => {
    const { tree, problems } = parse(`operation {\n  ${inner}\n}\n`);
    expect(sketch(tree)).toBe(`operation {\n  ${expected}\n}`);
    expect(problems.length).toBe(1);
  });

  test.each([
    ["operation {\n  check ap,\n  lateral\n}", "operation {\n  check ap, lateral\n}"],
    ["operation {\n  ream 8 mm,\n    nail x\n}", "operation {\n  ream 8mm, nail x\n}"],
    ["removal {\n  take D1,\n  cap\n}", "removal {\n  take D1, cap\n}"],
    ["protocol {\n  demand time-out,\n  nail,\n  lock\n}", "protocol {\n  demand time-out, nail, lock\n}"],
  ])("a comma carries %j on", (text, expected) => {
    expect(sketch(parse(text).tree)).toBe(expected);
    expect(parse(text).problems).toEqual([]);
  });
});

test("anything typed into one line of a plan leaves the other lines as they were", () => {
  const lines = plan.split("\n");
  const places = lines.flatMap((line, index) => (/^ {4}[a-z]/.test(line) ? [index] : []));
  const signs = fc.string({ unit: fc.constantFrom(..."ab1 .,()+-*/=±%°!é\u200b\u2212'#"), maxLength: 12 });
  fc.assert(
    fc.property(fc.constantFrom(...places), fc.nat(), signs, (index, place, typed) => {
      const line = lines[index] ?? "";
      const at = 4 + (place % (line.length - 3));
      const changed = lines.with(index, line.slice(0, at) + typed + line.slice(at)).join("\n");
      expect(lost(plan, changed).length, changed).toBeLessThanOrEqual(1);
    }),
    { numRuns: 3000 },
  );
});
