/**
 * Lines read against the vocabulary: what is right is read without a word, what is wrong is told once, in its place, with what
 * was expected and a repair. Marks under a line say which problem is expected there.
 */
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import { type Shaped, type ShapedStatement, shape } from "../../grammar/shape.ts";
import { placeAt } from "../../grammar/shape-place.ts";
import { blockRules, rulesOf, statementRule } from "../../grammar/vocabulary/blocks.ts";
import { readMarked, writeMarked } from "../markers.ts";

function read(text: string): Shaped {
  return shape(parse(text).tree);
}

function problemsOf(text: string): readonly Problem[] {
  const { tree, problems } = parse(text);
  return [...problems, ...shape(tree).problems];
}

/** What a mark says of a problem: slug, what was found, what was expected, the word that was meant. */
function said({ slug, found, expected, near }: Problem): string {
  const what = found === undefined ? slug : `${slug} ${found}`;
  const wanted = expected === undefined ? "" : `: ${expected.join(" | ")}`;
  return near === undefined ? what + wanted : `${what + wanted}; near ${near}`;
}

/** The whole text is read, and its problems are exactly the marked ones. */
function check(source: string): void {
  const { text, marks } = readMarked(source);
  const found = problemsOf(text).map((problem) => ({ ...problem.span, says: said(problem) }));
  expect(writeMarked(text, found)).toBe(writeMarked(text, marks));
}

/** The words that open each block, from the outermost on. */
const openings: Readonly<Record<string, readonly string[]>> = {
  file: [],
  plan: ['plan "a" {'],
  catalogue: ['catalogue "a" {'],
  protocol: ['protocol "a" {'],
  nail: ['catalogue "a" {', "nail a {"],
  screws: ['catalogue "a" {', "screws a {"],
  reamers: ['catalogue "a" {', "reamers {"],
  case: ['plan "a" {', "case a {"],
  images: ['plan "a" {', "images {"],
  measures: ['plan "a" {', "measures {"],
  operation: ['plan "a" {', "operation {"],
  fallback: ['plan "a" {', 'fallback "a" {'],
  achieved: ['plan "a" {', "achieved {"],
  aftercare: ['plan "a" {', "aftercare {"],
  removal: ['plan "a" {', "removal {"],
  ask: ['plan "a" {', 'ask "a" {'],
};

/** Puts lines into a block; gives the text and where the lines begin. */
function within(block: string, lines: string): { readonly text: string; readonly start: number } {
  const opening = openings[block] ?? [];
  const before = ["isthmus 1", ...opening, ""].join("\n");
  return { text: `${before}${lines}\n${opening.map(() => "}\n").join("")}`, start: before.length };
}

/** Like `check`, for lines of one block: what the block or the plan round them lacks is not looked at. */
function checkIn(block: string, source: string): void {
  const { text: lines, marks } = readMarked(source);
  const { text, start } = within(block, lines);
  const found = problemsOf(text)
    .filter(({ span }) => span.start >= start && span.start <= start + lines.length)
    .map((problem) => ({ start: problem.span.start - start, end: problem.span.end - start, says: said(problem) }));
  expect(writeMarked(lines, found)).toBe(writeMarked(lines, marks));
}

/** The lines after the first repair of their only problem. */
function repaired(block: string, lines: string, which = 0): string {
  const { text, start } = within(block, lines);
  const problems = problemsOf(text).filter(({ span }) => span.start >= start && span.start <= start + lines.length);
  expect(problems.map((problem) => problem.slug)).toHaveLength(1);
  const edits = [...(problems[0]?.repairs?.[which]?.edits ?? [])].sort((a, b) => b.span.start - a.span.start);
  const changed = edits.reduce((so, { span, text: put }) => so.slice(0, span.start) + put + so.slice(span.end), text);
  return changed.slice(start, start + lines.length + changed.length - text.length);
}

function lastStatement(shaped: Shaped): ShapedStatement | undefined {
  let found: ShapedStatement | undefined;
  for (let inner = shaped.statements.at(-1); inner !== undefined; inner = inner.children.at(-1)) found = inner;
  return found;
}

const plan = `isthmus 1

plan "Oblique fracture of the left tibial shaft" {
  use "catalogue/fenwick.isthmus"
  follow "protocol/teaching-hospital.isthmus"
  status for-review

  case TN-0417 {
    side left
    bone tibia
    age 34 years
    growth-plates closed
    bone-quality good
    weight 78 kg
    knee-flexion 120 deg
    soft-tissue closed C1
    fracture 42A2, from 208 mm on ap to 232 mm on ap, gap 3 mm ± 1 mm, fibula 4F2A
    alignment coronal 9 deg varus, sagittal 6 deg procurvatum, rotation 12 deg external, short 8 mm
  }

  images {
    view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm
    view lateral, marker 25 mm, seen 29 mm ± 0.2 mm
  }

  measures {
    landmark scar 416 mm ± 2 mm on ap
    landmark plafond 432 mm ± 2 mm on ap
    epiphysis proximal 88 mm on ap
    epiphysis distal 58 mm on ap
    canal at 60 mm, width 27 mm on ap, depth 24 mm on lateral
    canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral
    canal at 330 mm, width 24 mm on ap, depth 21 mm on lateral
    bone at 30 mm, width 62 mm on ap, depth 50 mm on lateral
    bone at 205 mm, width 26 mm on ap, depth 29 mm on lateral
    bone at 340 mm, width 36 mm on ap, depth 37 mm on lateral
  }

  operation {
    prepare antibiotic, time-out
    position supine, table radiolucent, support distal-thigh, knee 100 deg
    reduce closed, using traction
    enter infrapatellar, from-midline 8 mm lateral
    wire ball-tip
    ## Chatter starts at the isthmus; let the reamer do the work.
    ream 8.5 mm to 11 mm by 0.5 mm
    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm
    check ap, lateral
    lock D2, drilled 31 mm, screw 32 mm
    lock D1, drilled 33 mm, screw 34 mm
    lock P2, drilled 53 mm, screw 54 mm
    compress 2 turns
    lock P1, drilled 51 mm, screw 52 mm
    cap 5 mm
    check ap, lateral, rotation
  }

  fallback "the 10 mm nail stops at the isthmus" {
    ream 8.5 mm to 11.5 mm by 0.5 mm
  }

  aftercare {
    weight-bearing partial 20 kg, until 6 weeks
    watch compartment, diastolic 72 mmHg, pressure 28 mmHg
    review at 2 weeks, 6 weeks, 12 weeks
  }

  removal {
    take cap
    attach extractor
    take D1, D2, P2
    take P1
    withdraw nail
  }
}
`;

const catalogue = `isthmus 1

catalogue "Fenwick, an invented set" {
  notice "Invented for examples. Not an implant on any market."

  nail fenwick {
    for tibia
    material titanium-alloy
    modulus 110 GPa
    diameters 9 mm to 12 mm by 1 mm
    lengths 240 mm to 420 mm by 15 mm
    bore 5 mm
    hole P2, top 28 mm, runs medial-lateral, slot 6 mm, takes peg
    hole P1, top 40 mm, runs medial-lateral, takes peg
    hole D2, tip 26 mm, runs medial-lateral, takes peg
    hole D1, tip 12 mm, runs medial-lateral, takes peg
    compression travel 6 mm, pitch 1.25 mm
    caps 0 mm, 5 mm, 10 mm, 15 mm
    fits 42A1, 42A2, 42A3, 42B2, 42B3, 42C2, 42C3
  }

  screws peg {
    thread 4.6 mm
    core 3.9 mm
    drill 3.8 mm
    lengths 24 mm to 60 mm by 2 mm, 65 mm to 90 mm by 5 mm
  }

  reamers {
    heads 8 mm to 14 mm by 0.5 mm
    front-cutting 8 mm, 8.5 mm
  }
}
`;

const protocol = `isthmus 1

protocol "An invented teaching department" {
  limit sagittal up-to 10 deg, because "our alignment profile"
  limit tip-beyond-cortex 0 mm to 2 mm
  grade cap-missing warning
  demand time-out, antibiotic
}
`;

describe("what is right", () => {
  test.each([
    ["plan", plan],
    ["catalogue", catalogue],
    ["protocol", protocol],
  ])("the whole %s has no problem", (_, text) => {
    check(text);
  });

  const examples = [...blockRules.values()].flatMap((block) =>
    block.statements.map((rule): readonly [string, string, string] => [block.name, rule.word, rule.example]),
  );

  test.each(examples)("in %s the example of %s", (block, word, example) => {
    const lines = example.endsWith("{") ? `${example}\n}` : example;
    const { text, start } = block === "file" ? exampleOfFile(word, lines) : within(block, lines);
    const opened = word === "isthmus" ? "file" : (statementRule(block, word)?.block ?? "");
    const inLine = problemsOf(text).filter(({ slug, span, expected }) => {
      const lacksStatements = slug === "missing" && expected?.every((one) => rulesOf(opened).has(one));
      return span.start >= start && span.start <= start + lines.length && !lacksStatements;
    });
    expect(inLine).toEqual([]);
    const statement = lastStatement(read(text));
    expect(statement?.rule?.word).toBe(word);
    for (const slot of statement?.rule?.slots ?? []) {
      if (slot.times !== "optional" && slot.after === undefined) expect(statement?.slots.has(slot.name)).toBe(true);
    }
  });

  function exampleOfFile(word: string, lines: string): { readonly text: string; readonly start: number } {
    return word === "isthmus" ? { text: lines, start: 0 } : { text: `isthmus 1\n${lines}`, start: 10 };
  }

  test.each([
    ["plan", 'waive drill-odd, because "Measured twice.", signed "A"'],
    ["case", "soft-tissue open IIIB"],
    ["case", "fracture 42A2, from 208 mm to 232 mm, contact 50 %"],
    ["case", "alignment long 3 mm"],
    ["case", 'concern "Lives alone."'],
    ["images", "view ct, true-size"],
    ["measures", "landmark joint plafond - 45 mm"],
    ["measures", "canal at joint - 5 mm, depth 12 mm"],
    ["measures", "let far = min(scar, plafond - 15 mm)"],
    ["measures", "landmark scar -2 mm"],
    ["operation", "ream 8.5 mm, 9 mm, 9.5 mm"],
    ["operation", "ream 8 mm, 8.5 mm to 11 mm by 0.5 mm"],
    ["operation", "unreamed"],
    ["operation", "position lateral"],
    ["operation", "position supine, support knee, knee 90 deg"],
    ["operation", 'reduce open, using clamp, traction, "a towel", hold joystick'],
    ["operation", "lock D1, drilled 33 mm, screw peg 34 mm, grip near"],
    ["operation", "lock D1, drilled depth + 1 mm, screw peg (depth + 2 mm)"],
    ["operation", "compress 2 mm"],
    ["operation", "cap none"],
    ["operation", "cap extension"],
    ["operation", "block at 330 mm, side medial"],
    ["operation", "nail fenwick,\n  diameter 10 mm,\n  length 345 mm, sunk 8 mm"],
    ["aftercare", "weight-bearing none"],
    ["aftercare", "weight-bearing tolerated, until 12 weeks"],
    ["aftercare", "weight-bearing partial 50 %, until 3 months"],
    ["aftercare", "weight-bearing partial 200 N"],
    ["aftercare", "dynamise at 10 weeks, remove P1, P2"],
    ["nail", "hole P3, top 50 mm, runs oblique 45 deg, tilt 10 deg, takes bolt, spongy"],
    ["nail", "hole tip, tip 5 mm, runs anterior-posterior, takes bolt spongy"],
    ["nail", 'material "an alloy"'],
    ["protocol", "limit fit-ratio 0.8 to 0.99"],
    ["protocol", 'limit screws-per-fragment at-least 2, source "our habit"'],
    ["protocol", "limit gap-strain up-to 10 %"],
    ["protocol", "limit dynamise-from at-least 6 weeks"],
    ["protocol", "limit compartment-gradient at-least 30 mmHg"],
    ["protocol", "demand step"],
    ["ask", 'answer "The near end"'],
  ])("in %s: %s", (block, line) => {
    checkIn(block, line);
  });
});

describe("what stands in the slots", () => {
  function slotsOf(block: string, line: string): Readonly<Record<string, readonly string[]>> {
    const statement = lastStatement(read(within(block, line).text));
    const sections = [{ name: "", slots: statement?.slots }].concat(
      (statement?.clauses ?? []).map(({ word, slots }) => ({ name: `${word.name} `, slots })),
    );
    return Object.fromEntries(
      sections.flatMap(({ name, slots }) =>
        [...(slots ?? [])].map(([slot, items]) => [
          name + slot,
          items.map(({ span }) => within(block, line).text.slice(span.start, span.end)),
        ]),
      ),
    );
  }

  test("a list goes on across commas and spaces until a clause word", () => {
    expect(slotsOf("nail", "hole P1, takes bolt, spongy peg, top 5 mm, runs oblique 45 deg")).toEqual({
      name: ["P1"],
      "takes families": ["bolt", "spongy", "peg"],
      "top distance": ["5 mm"],
      "runs direction": ["oblique"],
      "runs angle": ["45 deg"],
    });
  });

  test("the family of a screw may be left out", () => {
    expect(slotsOf("operation", "lock D1, drilled 33 mm, screw 34 mm")).toMatchObject({ "screw length": ["34 mm"] });
    expect(slotsOf("operation", "lock D1, drilled 33 mm, screw peg 34 mm")).toMatchObject({
      "screw family": ["peg"],
      "screw length": ["34 mm"],
    });
  });

  test("lead words are not part of what they lead to", () => {
    expect(slotsOf("aftercare", "review at 2 weeks, 6 weeks")).toEqual({ times: ["2 weeks", "6 weeks"] });
    expect(slotsOf("plan", 'waive drill-odd at D2, because "b", signed "c"')).toMatchObject({ at: ["D2"] });
    expect(slotsOf("protocol", "limit sagittal up-to 10 deg")).toEqual({ name: ["sagittal"], most: ["10 deg"] });
  });

  test("a choice may be spelt like a clause", () => {
    expect(slotsOf("operation", "position supine, support knee, knee 90 deg")).toEqual({
      posture: ["supine"],
      "support support": ["knee"],
      "knee angle": ["90 deg"],
    });
  });

  test("what is wrong stays out, what is right beside it stays in", () => {
    expect(slotsOf("operation", "lock D1, drilled 33 deg, screw 34 mm")).toEqual({
      hole: ["D1"],
      "screw length": ["34 mm"],
    });
    expect(slotsOf("operation", "check ap, latral, rotation")).toEqual({ things: ["ap", "rotation"] });
  });

  test("names of built-in properties are ordinary names", () => {
    const line = "hole constructor, top 5 mm, runs medial-lateral, takes toString, valueOf";
    expect(slotsOf("nail", line)).toMatchObject({ name: ["constructor"], "takes families": ["toString", "valueOf"] });
    check(plan.replace("case TN-0417", "case constructor"));
    check(plan.replace("case TN-0417", 'case "__proto__"'));
  });
});

describe("what is wrong", () => {
  describe.each([
    [
      "a misspelt statement",
      "operation",
      `
lok D2, drilled 31 mm, screw 32 mm
^^^ unknown-word lok: prepare | position | reduce | enter | wire | ream | unreamed | nail | block | lock | compress | backslap | cap | check | step | let | ask; near lock`,
    ],
    [
      "a word that is nothing like any",
      "images",
      `
blargh 5 mm
^^^^^^ unknown-word blargh: view | let | ask`,
    ],
    [
      "a misspelt clause is not missing too",
      "operation",
      `
lock D2, drilld 31 mm, screw 32 mm
         ^^^^^^ unknown-word drilld: drilled | screw | grip; near drilled`,
    ],
    [
      "a misspelt clause after a list",
      "nail",
      `
hole P1, top 5 mm, takes peg, rns medial-lateral
                              ^^^ unknown-word rns: the name of a screw family | tip | runs | tilt | slot; near runs`,
    ],
    [
      "a half-typed clause",
      "operation",
      `
nail fenwick, diam 10 mm, length 345 mm, sunk 8 mm
              ^^^^ unknown-word diam: diameter | length | sunk; near diameter`,
    ],
    [
      "a misspelt choice",
      "case",
      `
bone tibbia
     ^^^^^^ unknown-word tibbia: tibia | femur | humerus; near tibia`,
    ],
    [
      "a misspelt choice in a list",
      "operation",
      `
check ap, latral, rotation
          ^^^^^^ unknown-word latral: ap | lateral | rotation | length | stability; near lateral`,
    ],
    [
      "a misspelt lead word",
      "measures",
      `
canal att 60 mm, width 27 mm
      ^^^ unknown-word att: at; near at`,
    ],
    [
      "a part that is missing in the head",
      "operation",
      `
lock
^^^^ missing: the name of a hole
^^^^ missing: drilled
^^^^ missing: screw`,
    ],
    [
      "a clause that is missing",
      "operation",
      `
lock D2, drilled 31 mm
^^^^ missing: screw`,
    ],
    [
      "a value that is missing in a clause",
      "operation",
      `
lock D2, drilled, screw 32 mm
         ^^^^^^^ missing: a length`,
    ],
    [
      "a direction that is missing",
      "case",
      `
alignment coronal 9 deg, sagittal 6 deg procurvatum
          ^^^^^^^ missing: varus | valgus`,
    ],
    [
      "a value before its direction that is missing",
      "case",
      `
alignment coronal varus
          ^^^^^^^ missing: an angle`,
    ],
    [
      "a lead word that is missing",
      "aftercare",
      `
review 2 weeks, 6 weeks
       ^^^^^^^ missing: at`,
    ],
    [
      "an equals sign that is missing",
      "measures",
      `
let far 12 mm
        ^^^^^ missing: =`,
    ],
    [
      "a value of a name that is missing",
      "measures",
      `
let far =
^^^ missing: a value`,
    ],
    [
      "nothing after a statement of clauses",
      "case",
      `
alignment
^^^^^^^^^ missing: coronal | sagittal | rotation | short | long`,
    ],
    [
      "neither of two ways",
      "nail",
      `
hole P1, runs medial-lateral, takes peg
^^^^ missing: top | tip`,
    ],
    [
      "half of a way",
      "images",
      `
view ap, marker 25 mm
^^^^ missing: seen`,
    ],
    [
      "both of two ways",
      "nail",
      `
hole P1, top 28 mm, tip 300 mm, runs medial-lateral, takes peg
                    ^^^ misplaced tip: one of top or tip`,
    ],
    [
      "neither width nor depth",
      "measures",
      `
canal at 205 mm
^^^^^ missing: width | depth`,
    ],
    [
      "no bound for a limit",
      "protocol",
      `
limit sagittal, because "b"
^^^^^ missing: a range (1 mm to 2 mm) | up-to and a length | up-to and an angle | up-to and a share | up-to and a time | up-to and a pressure | up-to and a number without a unit | at-least and a length | at-least and an angle | at-least and a share | at-least and a time | at-least and a pressure | at-least and a number without a unit`,
    ],
    [
      "a clause said twice",
      "operation",
      `
lock D2, drilled 31 mm, screw 32 mm, drilled 33 mm
                                     ^^^^^^^ repeated drilled`,
    ],
    [
      "a statement said twice",
      "case",
      `
side left
side right
^^^^ repeated side`,
    ],
    [
      "heads and no reaming",
      "operation",
      `
ream 9 mm
unreamed
^^^^^^^^ misplaced unreamed: one of ream, unreamed`,
    ],
    [
      "a statement of another block",
      "operation",
      `
side left
^^^^ misplaced side: case`,
    ],
    [
      "a statement of several other blocks",
      "images",
      `
step "x"
^^^^ misplaced step: operation | fallback | achieved | removal`,
    ],
    [
      "a statement of an inner block in the plan",
      "plan",
      `
lengths 240 mm
^^^^^^^ misplaced lengths: nail | screws`,
    ],
    [
      "no unit",
      "case",
      `
knee-flexion 120
             ^^^ unit-missing 120: an angle`,
    ],
    [
      "no unit behind a sign and a view",
      "measures",
      `
landmark scar -416 on ap
               ^^^ unit-missing 416: a length`,
    ],
    [
      "no unit in a list",
      "aftercare",
      `
review at 2 weeks, 6
                   ^ unit-missing 6: a time`,
    ],
    [
      "one unit for a whole range",
      "operation",
      `
ream 8.5 to 11 by 0.5 mm
     ^^^ unit-missing 8.5: a length`,
    ],
    [
      "a unit of another dimension",
      "case",
      `
knee-flexion 120 mm
             ^^^^^^ unit-mismatch a length: an angle`,
    ],
    [
      "a unit that fits neither of two",
      "operation",
      `
compress 2 deg
         ^^^^^ unit-mismatch an angle: a number of turns | a length`,
    ],
    [
      "a unit of another dimension behind plus-minus",
      "measures",
      `
landmark scar 416 mm ± 2 deg
              ^^^^^^^^^^^^^^ unit-mismatch an angle: a length`,
    ],
    [
      "a level that is no length",
      "measures",
      `
canal at 60 deg, width 27 mm
         ^^^^^^ unit-mismatch an angle: a length`,
    ],
    [
      "a range without its step",
      "nail",
      `
lengths 240 mm to 420 mm
        ^^^^^^^^^^^^^^^^ missing: by and a step`,
    ],
    [
      "a step where none belongs",
      "protocol",
      `
limit tip-beyond-cortex 0 mm to 2 mm by 1 mm
                                        ^^^^ misplaced by: a range without a step`,
    ],
    [
      "a word where a text belongs",
      "aftercare",
      `
advise rest
       ^^^^ misplaced rest: a text in quotes`,
    ],
    [
      "a text where a word belongs",
      "plan",
      `
status "draft"
       ^^^^^^^ misplaced a text: draft | for-review | approved | performed`,
    ],
    [
      "a number where a code belongs",
      "case",
      `
fracture 42, from 1 mm to 2 mm
         ^^ misplaced 42: a fracture code`,
    ],
    [
      "something too much in the head",
      "case",
      `
side left right
          ^^^^^ misplaced right: the end of the line`,
    ],
    [
      "something too much after a comma",
      "case",
      `
age 34 years, 35 years
              ^^^^^^^^ misplaced 35 years: the end of the line`,
    ],
    [
      "something too much in a clause",
      "operation",
      `
lock D2, drilled 31 mm 5 mm, screw 32 mm
                       ^^^^ misplaced 5 mm: screw | grip`,
    ],
    [
      "a load without the word for it",
      "aftercare",
      `
weight-bearing none 20 kg
                    ^^^^^ misplaced 20 kg: until`,
    ],
    [
      "a comma too few",
      "operation",
      `
lock D2 drilled 31 mm, screw 32 mm
        ^^^^^^^ missing: ,`,
    ],
    [
      "a comma too few between clauses",
      "operation",
      `
lock D2, drilled 31 mm screw 32 mm
                       ^^^^^ missing: ,`,
    ],
    [
      "a comma too much",
      "operation",
      `
enter infrapatellar, from-midline 8 mm, lateral
                                      ^^ misplaced ,: medial | lateral`,
    ],
    [
      "braces where none belong",
      "case",
      `
side left {
          ^ misplaced {: the end of the line
}`,
    ],
    [
      "two faults of one line",
      "case",
      `
alignment coronal 9 varsu
                  ^ unit-missing 9: an angle
                    ^^^^^ unknown-word varsu: varus | valgus; near varus`,
    ],
  ])("%s", (_, block, source) => {
    test("is told in its place", () => {
      checkIn(block, source.slice(1));
    });
  });
});

describe("what a whole document lacks", () => {
  test("an empty file lacks its first line alone", () => {
    expect(problemsOf("").map(said)).toEqual(["missing: isthmus 1"]);
  });

  test("a file without a document", () => {
    check(`isthmus 1
^^^^^^^ missing: plan | catalogue | protocol`);
  });

  test("a file without its edition", () => {
    const text = protocol.slice("isthmus 1\n\n".length);
    const [problem, ...others] = problemsOf(text);
    expect(others).toEqual([]);
    expect(problem?.repairs?.[0]?.edits).toEqual([{ span: { start: 0, end: 0 }, text: "isthmus 1\n\n" }]);
  });

  test("an edition that is not known, and one that is not first", () => {
    check(`isthmus 2
        ^ unknown-word 2: 1
protocol "a" {
}`);
    check(`protocol "a" {
}
isthmus 1
^^^^^^^ misplaced isthmus: the first line`);
  });

  test("two documents in one file", () => {
    check(`isthmus 1
protocol "a" {
}
catalogue "b" {
^^^^^^^^^ misplaced catalogue: one of plan, catalogue, protocol
  notice "c"
}`);
  });

  test("blocks and statements that must stand", () => {
    check(`isthmus 1
plan "a" {
^^^^ missing: measures
^^^^ missing: operation
  case a {
  ^^^^ missing: fracture
    side left
    bone tibia
  }
}`);
  });

  test("a misspelt block is not missing too, and is read as what was meant", () => {
    const problems = problemsOf(plan.replace("operation {", "opration {"));
    expect(problems.map(({ slug, near }) => [slug, near])).toEqual([["unknown-word", "operation"]]);
  });

  test("inside an unknown block nothing more is told", () => {
    const problems = problemsOf(plan.replace("aftercare {", "blargh {"));
    expect(problems.map(({ slug, found }) => [slug, found])).toEqual([["unknown-word", "blargh"]]);
  });

  test("inside a block that stands in the wrong place its own statements are known", () => {
    checkIn(
      "case",
      `nail a {
^^^^ misplaced nail: operation | fallback | achieved | catalogue
  bore 5 mm
}`,
    );
  });

  test("a block without its braces", () => {
    expect(repaired("plan", "images")).toBe("images {\n}");
  });

  test("a broken line gives no second problem and keeps the rest", () => {
    const text = plan.replace("knee-flexion 120 deg", "knee-flexion ]] 120");
    const { tree, problems } = parse(text);
    expect(problems.length).toBe(1);
    expect(shape(tree).problems).toEqual([]);
  });
});

describe("repairs", () => {
  test.each([
    ["case", "tibia", "bone tibia"],
    ["operation", "lock D2, 31 mm, screw 32 mm", "lock D2, drilled 31 mm, screw 32 mm"],
    ["operation", "lock D2 31 mm, screw 32 mm", "lock D2, drilled 31 mm, screw 32 mm"],
    ["operation", "lock D2, drilled 31 mm\nscrew 32 mm", "lock D2, drilled 31 mm,\nscrew 32 mm"],
    ["operation", "cap 5 mmm", "cap 5 mm"],
    ["operation", "lok D2, drilled 31 mm, screw 32 mm", "lock D2, drilled 31 mm, screw 32 mm"],
    ["operation", "lock D2, drilld 31 mm, screw 32 mm", "lock D2, drilled 31 mm, screw 32 mm"],
    ["operation", "check ap, latral", "check ap, lateral"],
    ["measures", "canal att 60 mm, width 27 mm", "canal at 60 mm, width 27 mm"],
    ["measures", "canal 60 mm, width 27 mm", "canal at 60 mm, width 27 mm"],
    ["measures", "let far 12 mm", "let far = 12 mm"],
    ["case", "knee-flexion 120", "knee-flexion 120 deg"],
    ["operation", "ream 8.5 to 11 by 0.5 mm", "ream 8.5 mm to 11 mm by 0.5 mm"],
    ["nail", "lengths 240 mm to 420 mm", "lengths 240 mm to 420 mm by 1 mm"],
    ["operation", "lock D2 drilled 31 mm, screw 32 mm", "lock D2, drilled 31 mm, screw 32 mm"],
    ["operation", "enter infrapatellar, from-midline 8 mm, lateral", "enter infrapatellar, from-midline 8 mm lateral"],
    ["operation", "lock D2, drilled 31 mm, drilled 33 mm, screw 32 mm", "lock D2, drilled 31 mm, screw 32 mm"],
    ["plan", 'status "draft"', "status draft"],
    ["aftercare", "advise rest", 'advise "rest"'],
  ])("in %s: %s", (block, wrong, right) => {
    expect(repaired(block, wrong)).toBe(right);
    checkIn(block, right);
  });

  test("a time may have been meant in any of its units", () => {
    expect([0, 1, 2].map((which) => repaired("case", "age 34", which))).toEqual([
      "age 34 weeks",
      "age 34 months",
      "age 34 years",
    ]);
  });
});

describe("one mistake, one problem", () => {
  const documents: readonly (readonly [string, string])[] = [
    ["plan", plan],
    ["catalogue", catalogue],
    ["protocol", protocol],
  ];

  /** Every word outside texts and notes. */
  function wordsOf(text: string): readonly { readonly word: string; readonly start: number }[] {
    const clean = text.replace(/"[^"]*"|##.*/g, (quiet) => " ".repeat(quiet.length));
    return [...clean.matchAll(/[A-Za-z][A-Za-z0-9-]*/g)].map(({ 0: word, index }) => ({ word, start: index }));
  }

  function tellsOnce(text: string, change: string): void {
    const told = problemsOf(text).map(said);
    expect(told.length > 1 ? [change, ...told] : []).toEqual([]);
  }

  test.each(documents)("any word of the %s misspelt", (_, text) => {
    for (const { word, start } of wordsOf(text)) {
      tellsOnce(`${text.slice(0, start)}${word[0]}${text.slice(start)}`, `${word} at ${start}`);
    }
  });

  test.each(documents)("any word of the %s left out", (_, text) => {
    for (const { word, start } of wordsOf(text)) {
      tellsOnce(text.slice(0, start) + text.slice(start + word.length), `${word} at ${start}`);
    }
  });

  test.each(documents)("any comma of the %s left out", (_, text) => {
    for (const { index } of text.matchAll(/,/g)) tellsOnce(text.slice(0, index) + text.slice(index + 1), `at ${index}`);
  });

  test.each(documents)("any opening brace of the %s left out keeps the block's statements", (_, text) => {
    for (const { index } of text.matchAll(/\{/g)) {
      const shaped = read(text.slice(0, index) + text.slice(index + 1));
      expect(shaped.problems.map(said)).toEqual(["missing: {"]);
    }
  });

  test.each(documents)("any part of the %s from its beginning is read to its end", (_, text) => {
    for (let end = 0; end <= text.length; end += 1) {
      for (const { span } of read(text.slice(0, end)).problems) {
        expect(0 <= span.start && span.start <= span.end && span.end <= end).toBe(true);
      }
    }
  });
});

describe("very long texts", () => {
  test.each([
    ["many unknown statements", "lokk D2, drilld 3 mm\n".repeat(5000)],
    ["a long list", `check ${"latral, ".repeat(20_000)}ap`],
    ["many things too much", `nail fenwick, ${"5 mm, ".repeat(20_000)}diameter 10 mm`],
    ["one clause over and over", `nail fenwick, ${"diameter 9 mm, ".repeat(20_000)}length 345 mm`],
    ["many clauses without a comma", `nail fenwick ${"diameter 9 mm ".repeat(20_000)}`],
  ])("%s: time stays in proportion", (_, lines) => {
    const { tree } = parse(within("operation", lines).text);
    const before = performance.now();
    const { problems } = shape(tree);
    // Wide, since the machine may be busy: in proportion it takes a second, with the square of the length it takes minutes.
    expect(performance.now() - before).toBeLessThan(10_000);
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.length).toBeLessThanOrEqual(200);
  });
});

describe("places", () => {
  function at(text: string, cursor: number): string {
    const { path, clause, slot, item } = placeAt(read(text), cursor);
    const parts = [
      path.map(({ statement }) => statement.word.name).join(" > "),
      clause?.word.name,
      slot?.name,
      item?.kind,
    ];
    return parts.map((part) => part ?? "-").join(" / ");
  }

  test.each([
    ["operation", "lock D$02, drilled 31 mm, screw 32 mm", "plan > operation > lock / - / hole / word"],
    ["operation", "lock D2, drilled 31$0 mm, screw 32 mm", "plan > operation > lock / drilled / depth / quantity"],
    ["operation", "lock D2, dri$0lled 31 mm, screw 32 mm", "plan > operation > lock / drilled / - / -"],
    ["operation", "lo$0ck D2", "plan > operation > lock / - / - / -"],
  ])("in %s: %s", (block, line, place) => {
    const { text, cursor } = readMarked(within(block, line).text);
    expect(at(text, cursor ?? 0)).toBe(place);
  });
});
