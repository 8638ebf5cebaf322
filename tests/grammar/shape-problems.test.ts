/**
 * Each kind of mistake in a line or a document: it is told once, in its place, with what was expected and a repair. Marks under a
 * line say which problem is expected there.
 */
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { shape } from "../../grammar/shape.ts";
import { examplePlan as plan, exampleProtocol as protocol } from "../../server/findings/example.ts";
import { check, checkIn, problemsOf, repaired, said } from "./lines.ts";

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
    expect(repaired("plan", "images\n  view ct, true-size")).toBe("images {\n  view ct, true-size");
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
