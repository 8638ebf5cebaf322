/** Proposals as edits: applied to the plan they give just what was proposed, without an error, and change nothing else. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layout } from "../../grammar/layout.ts";
import { parse } from "../../grammar/parse.ts";
import type { Edit } from "../../grammar/problems.ts";
import type { Analysis } from "../../server/answers/analyse.ts";
import { type Proposal, propose } from "../../server/answers/propose.ts";
import { editsFor, proposedChanges, touchesProposed } from "../../server/answers/propose-edits.ts";
import { proposedLines } from "../../server/answers/propose-lines.ts";
import { answerText } from "../../server/answers/wording.ts";
import { analyseText, sampleText } from "../check.ts";
import { changed } from "../findings/judged.ts";
import { analysed, openPlan, worlds } from "./propose-by-hand.ts";

type Change = readonly [from: string, to: string];

function applied(text: string, edits: readonly Edit[]): string {
  return edits
    .toReversed()
    .reduce((now, { span, text: put }) => now.slice(0, span.start) + put + now.slice(span.end), text);
}

/** Every reckoning as it is printed, so that two plans can be held against each other. */
function printed(reckonings: Proposal["reckonings"] | undefined): Readonly<Record<string, string>> {
  return Object.fromEntries((reckonings?.list ?? []).map((each) => [each.id, answerText(each)]));
}

function errorsOf({ judgement }: Analysis): readonly string[] {
  return judgement.findings
    .filter(({ grade, waived }) => grade === "error" && waived === undefined)
    .map(({ slug, message }) => `${slug}: ${message}`);
}

/** Applies each proposal's edits and holds the plan read again against what was proposed. Returns how many there were. */
function checkApplied(analysis: Analysis, again: (text: string) => Analysis): number {
  const { frame, proposals } = propose(analysis);
  for (const proposal of proposals) {
    const edits = frame === undefined ? undefined : editsFor(frame, proposal);
    expect(edits).toBeDefined();
    for (const [at, { span }] of (edits ?? []).entries()) {
      expect(span.start).toBeGreaterThanOrEqual(edits?.[at - 1]?.span.end ?? 0);
    }
    const text = applied(analysis.text, edits ?? []);
    const after = again(text);
    expect(errorsOf(after), text).toEqual([]);
    expect(printed(after.reckonings), text).toEqual(printed(proposal.reckonings));
  }
  return proposals.length;
}

const example = (...change: readonly Change[]): Analysis => changed(...change);

/** The example's library with another text of the plan. */
function reread(change: readonly Change[]): (text: string) => Analysis {
  const catalogueChange = change.filter(([from]) => !example().text.includes(from));
  return (text) => changed(...catalogueChange, [example().text, text]);
}

function checkExample(...change: readonly Change[]): number {
  return checkApplied(example(...change), reread(change));
}

describe("applied edits", () => {
  const plans: readonly (readonly [what: string, change: readonly Change[]])[] = [
    ["the worked plan", []],
    ["another nail size", [["diameter 10 mm, length 345 mm", "diameter 12 mm, length 330 mm"]]],
    ["a list of heads one by one", [["    ream 8.5 mm to 11 mm by 0.5 mm", "    ream 8.5 mm, 9 mm, 9.5 mm"]]],
    ["two reamings", [["by 0.5 mm\n    nail", "by 0.5 mm\n    ream 11.5 mm, 12 mm # far too much\n    nail"]]],
    ["no reaming", [["    ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "    nail"]]],
    ["no nail", [["    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm\n", ""]]],
    [
      "neither",
      [
        ["    ream 8.5 mm to 11 mm by 0.5 mm\n    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm\n", ""],
        ["    wire ball-tip\n", ""],
      ],
    ],
    ["half a nail", [["nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm", "nail fenwick, length 345 mm"]]],
    ["a nail with a mistake in it", [["diameter 10 mm, length 345 mm", "diameter 10,5 mm, lenght 345 mm"]]],
    ["a comment and an odd layout", [["nail fenwick, diameter 10 mm", "nail   fenwick,   diameter 9mm # thin"]]],
    [
      "no cap",
      [
        ["    cap 5 mm\n", ""],
        ["    take cap\n", ""],
      ],
    ],
    ["a cap too long", [["cap 5 mm", "cap 10 mm"]]],
    ["a cap that is not listed", [["cap 5 mm", "cap 4 mm"]]],
    [
      "no cap that fits",
      [
        ["caps 0 mm, 5 mm, 10 mm, 15 mm", "caps 10 mm, 15 mm"],
        ["    take cap\n", ""],
      ],
    ],
    [
      "no removal",
      [
        ["    cap 5 mm\n", ""],
        ["    take cap\n", "    take cap # it is not there\n"],
      ],
    ],
    ["a screw too long", [["screw 32 mm", "screw 40 mm"]]],
    ["a screw without a length", [["drilled 31 mm, screw 32 mm", "drilled 31 mm"]]],
    ["a lock without anything", [["lock D2, drilled 31 mm, screw 32 mm", "lock D2"]]],
    [
      "a lock with a family and one cortex",
      [["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw peg 32 mm, grip near"]],
    ],
    ["a depth with its uncertainty", [["drilled 31 mm, screw 32 mm", "drilled 31 mm ± 0.4 mm, screw 36 mm"]]],
    [
      "a named depth",
      [
        ["sunk 8 mm", "sunk deep"],
        ["  case TN-0417 {", "  let deep = 8 mm\n\n  case TN-0417 {"],
      ],
    ],
    [
      "no fallback",
      [['  fallback "the 10 mm nail stops at the isthmus" {\n    ream 8.5 mm to 11.5 mm by 0.5 mm\n  }\n\n', ""]],
    ],
    [
      "a demanded step that is not there",
      [
        ["demand time-out", "demand ream, time-out"],
        ["    ream 8.5 mm to 11 mm by 0.5 mm\n    nail", "    nail"],
      ],
    ],
  ];
  test.each(plans)("to %s give what was proposed, without an error", (_what, change) => {
    expect(checkExample(...change)).toBe(3);
  });

  test("keep the line ends of the text", () => {
    const text = example(["    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm\n", ""]).text.replaceAll(
      "\n",
      "\r\n",
    );
    const analysis = changed([example().text, text]);
    const [change] = proposedChanges(analysis);
    expect(applied(text, change?.edits ?? []).replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(checkApplied(analysis, (now) => changed([example().text, now]))).toBe(3);
  });

  test.each(["simple-shaft", "distal-third", "uncertain-limits"])("to the sample %s as well", (name) => {
    expect(checkApplied(analyseText(sampleText(`plans/${name}.isthmus`)), (text) => analyseText(text))).toBe(3);
  });

  test("to small worlds made at random", { timeout: 300_000 }, () => {
    let proposals = 0;
    fc.assert(
      fc.property(worlds, (world) => {
        proposals += checkApplied(analysed(world, openPlan(world)), (text) => analysed(world, text));
      }),
      { numRuns: 100 },
    );
    expect(proposals).toBeGreaterThan(50);
  });
});

describe("titles", () => {
  const titles = (...change: readonly Change[]): readonly string[] =>
    proposedChanges(example(...change)).map(({ title }) => title);

  test("say what changes with its numbers, and how well the length fits", () => {
    expect(titles(["diameter 10 mm, length 345 mm", "diameter 11 mm, length 330 mm"])[0]).toBe(
      "Propose from the measures: nail 11 mm × 330 mm → 10 mm × 345 mm (margin 8.7 mm ± 3.1 mm, fits with more than 99 %)",
    );
    expect(
      titles(["to 11 mm by 0.5 mm", "to 12 mm by 0.5 mm"], ["cap 5 mm", "cap 0 mm"], ["screw 32 mm", "screw 36 mm"])[0],
    ).toBe(
      "Propose from the measures: last head 12 mm → 11 mm, cap 0 mm → 5 mm, screw D2 36 mm → 32 mm (margin 8.7 mm ± 3.1 mm, fits with more than 99 %)",
    );
    expect(titles(["    nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm\n", ""])[0]).toBe(
      "Propose from the measures: nail fenwick 10 mm × 345 mm, sunk 8 mm (margin 8.7 mm ± 3.1 mm, fits with more than 99 %)",
    );
  });

  test("are not offered for what the plan is already", () => {
    expect(titles()).toHaveLength(2);
    expect(titles()[0]).toContain("nail 10 mm × 345 mm → 12 mm × 345 mm, last head 11 mm → 13.5 mm");
  });

  test("there are none where nothing is proposed", () => {
    expect(titles(["support distal-thigh", "support knee"])).toEqual([]);
    expect(proposedChanges(changed(["isthmus 1\n\nplan", "isthmus 1\n\nprotocol"]))).toEqual([]);
  });
});

test("only lines that a proposal writes anew are touched", () => {
  const analysis = example();
  const touched = analysis.text.split("\n").filter((line) => {
    const start = analysis.text.indexOf(line) + line.search(/\S|$/);
    return line.trim() !== "" && touchesProposed(analysis, { start, end: start });
  });
  expect(touched.map((line) => line.trim())).toEqual([
    "ream 8.5 mm to 11 mm by 0.5 mm",
    "nail fenwick, diameter 10 mm, length 345 mm, sunk 8 mm",
    "cap 5 mm",
  ]);
});

test("the lines to paste are in canonical layout", () => {
  const { frame, proposals } = propose(
    example(["lock D2, drilled 31 mm, screw 32 mm", "lock D2,drilled 31mm,screw 32mm"]),
  );
  for (const proposal of proposals) {
    const lines = frame === undefined ? [] : proposedLines(frame, proposal);
    const text = `plan "x" {\n  operation {\n${lines.join("\n")}\n  }\n}\n`;
    expect(lines.length).toBeGreaterThan(5);
    expect(layout(parse(text))).toBe(text);
  }
});
