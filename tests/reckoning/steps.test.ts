/**
 * The ordered steps: what each needs done first, kept or not, and that the list and the rules about order read one table. Common
 * practice, no single source.
 */
import { describe, expect, test } from "vitest";
import { examplePlan } from "../../server/findings/example.ts";
import type { Plan } from "../../server/meaning/plan.ts";
import { outOfOrder, precedences } from "../../server/reckoning/order.ts";
import { plannedSteps } from "../../server/reckoning/steps.ts";
import { changed } from "../findings/judged.ts";
import { exampleWith, reasonOf, wordOf } from "./answers-of.ts";

type Change = readonly [from: string, to: string];

/** Moves the line that begins with `line` in front of the one that begins with `target`. */
function moved(line: string, target: string): readonly Change[] {
  const whole = (start: string): string => {
    const found = examplePlan.split("\n").find((each) => each.startsWith(`    ${start}`));
    if (found === undefined) throw new Error(`no line begins with ${start}`);
    return `${found}\n`;
  };
  return [
    [whole(line), ""],
    [whole(target), whole(line) + whole(target)],
  ];
}

test("the worked plan", () => {
  // By hand: prepare 1, position 2, reduce 3, enter 4, wire 5, ream 6, nail 7, check 8, D2 9, D1 10, P2 11 (slot), compress 12, P1 13
  // (fixed), cap 14, check 15.
  expect(wordOf(exampleWith(), "steps")).toBe(
    "1 prepare; 2 position; 3 reduce; 4 enter; 5 wire after 4; 6 ream after 5; 7 nail fenwick after 6; " +
      "8 check ap, lateral after 7; 9 lock D2 after 7, 8; 10 lock D1 after 7; 11 lock P2 after 7; " +
      "12 compress after 9, 10, 11; 13 lock P1 after 7, 12; 14 cap after 11, 12, 13; 15 check ap, lateral, rotation after 14",
  );
});

test("a step in free words: at most 40 letters of them, its word alone where there are none", () => {
  const plan = exampleWith();
  const [first] = plan.steps;
  if (first === undefined) throw new Error("the worked plan has steps");
  const whatOf = (text: string | undefined): string | undefined => {
    const said = text === undefined ? undefined : { text, place: first.place };
    const step = { kind: "step" as const, text: said, place: first.place, wordPlace: first.wordPlace };
    return plannedSteps({ ...plan, steps: [step] })[0]?.what;
  };
  expect(whatOf(undefined)).toBe("step");
  expect(whatOf("  turn the\n  foot ")).toBe("turn the foot");
  expect(whatOf("x".repeat(40))).toBe("x".repeat(40));
  expect(whatOf("x".repeat(41))).toBe(`${"x".repeat(39)}…`);
  // A letter beyond the first 65,536 is one letter.
  expect(whatOf("𝑥".repeat(40))).toBe("𝑥".repeat(40));
  expect(whatOf("𝑥".repeat(41))).toBe(`${"𝑥".repeat(39)}…`);
});

test("each need has its reason, and each step its place", () => {
  const plan = exampleWith();
  const steps = plannedSteps(plan);
  expect(steps.map(({ number }) => number)).toEqual(steps.map((_, index) => index + 1));
  expect(steps.map(({ place }) => place)).toEqual(plan.steps.map(({ place }) => place));
  expect(steps[5]?.needs).toEqual([{ number: 5, because: "reamers run over the wire", kept: true }]);
  expect(steps[11]?.needs).toEqual([
    { number: 9, because: "backslap and compression draw on the far fragment through its screws", kept: true },
    { number: 10, because: "backslap and compression draw on the far fragment through its screws", kept: true },
    { number: 11, because: "compression pulls against the screw in the slot", kept: true },
  ]);
  expect(steps[12]?.needs.at(-1)).toEqual({
    number: 12,
    because: "a fixed screw at the driving end would block the compression",
    kept: true,
  });
});

test("a plan without steps has none", () => {
  expect(reasonOf({ ...exampleWith(), steps: [] }, "steps")).toBe("absent");
});

test("one far screw before the compression is enough, none is not", () => {
  const needsOf = (plan: Plan): string[] =>
    plannedSteps(plan)
      .filter(({ what }) => what === "compress")
      .flatMap(({ needs }) => needs.map(({ number, kept }) => `${number} ${kept}`));
  // D1 moved behind the compression: D2 (9) and the slot screw (10) remain.
  expect(needsOf(exampleWith(...moved("lock D1", "cap")))).toEqual(["9 true", "10 true"]);
  const both: readonly Change[] = [
    ["    lock D2, drilled 31 mm, screw 32 mm\n    lock D1, drilled 33 mm, screw 34 mm\n", ""],
    [
      "    cap 5 mm\n",
      "    lock D2, drilled 31 mm, screw 32 mm\n    lock D1, drilled 33 mm, screw 34 mm\n    cap 5 mm\n",
    ],
  ];
  expect(needsOf(exampleWith(...both))).toEqual(["9 true", "12 false", "13 false"]);
  expect(wordOf(exampleWith(...both), "steps")).toContain("10 compress after 9, before 12, 13, which it needs");
});

test("blocking screws come before reaming", () => {
  const block = "    block at 250 mm, side medial\n";
  const nail = "    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm\n";
  const before = wordOf(exampleWith(["    wire ball-tip\n", `    wire ball-tip\n${block}`]), "steps");
  expect(before).toContain("6 block; 7 ream after 5, 6;");
  const after = wordOf(exampleWith([nail, block + nail]), "steps");
  expect(after).toContain("6 ream after 5, before 7, which it needs; 7 block;");
});

test("without a wire the reaming, without both the nail needs the entry", () => {
  const noWire: Change = ["    wire ball-tip\n", ""];
  expect(wordOf(exampleWith(noWire), "steps")).toContain("4 enter; 5 ream after 4; 6 nail fenwick after 5;");
  const unreamed: Change = [
    "    ## Chatter starts at the isthmus; let the reamer do the work.\n    ream 8.5 mm to 11 mm by 0.5 mm\n",
    "    unreamed\n",
  ];
  expect(wordOf(exampleWith(noWire, unreamed), "steps")).toContain("4 enter; 5 unreamed; 6 nail fenwick after 4;");
});

test("free steps in their own words, shortened to a line", () => {
  const step = 'step "Put the drape back and call the next scrub nurse\\n  before noon"';
  const words = wordOf(exampleWith(["    reduce closed, using traction\n", `    ${step}\n`]), "steps");
  expect(words).toContain("3 Put the drape back and call the next sc…; 4 enter");
});

describe("the rule reads the same table", () => {
  test.each<[string, readonly Change[], string]>([
    ["entry", moved("enter", "nail"), "entry"],
    ["wire", moved("wire", "nail"), "wire"],
    ["reaming", moved("nail", "ream"), "reaming"],
    ["nail", moved("lock D2", "nail"), "nail"],
    ["cap", moved("cap", "lock P2"), "cap"],
  ])("%s: out of order in the table, not kept in the list, found by the rule", (_, change, name) => {
    const plan = exampleWith(...change);
    const pairs = outOfOrder(plan, name as Parameters<typeof outOfOrder>[1]);
    expect(pairs.length).toBeGreaterThan(0);
    expect(plannedSteps(plan).some(({ needs }) => needs.some(({ kept }) => !kept))).toBe(true);
    const found = changed(...change).judgement.findings.map(({ slug }) => slug);
    expect(found).toContain("step-order");
  });

  test("in order, every need is kept and nothing is out of order", () => {
    const plan = exampleWith();
    expect(precedences.flatMap(({ name }) => outOfOrder(plan, name))).toEqual([]);
    expect(plannedSteps(plan).flatMap(({ needs }) => needs.filter(({ kept }) => !kept))).toEqual([]);
  });

  test("an entry after an unreamed nail is found too", () => {
    const change: readonly Change[] = [
      ["    enter infrapatellar, from-midline 8 mm lateral\n    wire ball-tip\n", ""],
      [
        "    ## Chatter starts at the isthmus; let the reamer do the work.\n    ream 8.5 mm to 11 mm by 0.5 mm\n",
        "    unreamed\n",
      ],
      [
        "    check ap, lateral\n    lock D2",
        "    enter infrapatellar, from-midline 8 mm lateral\n    check ap, lateral\n    lock D2",
      ],
    ];
    const [finding] = changed(...change).judgement.findings.filter(({ slug }) => slug === "step-order");
    expect(finding?.message).toBe(
      "The bone is entered only after the nail; the entry comes first, because what goes into the bone goes in through the entry.",
    );
  });
});
