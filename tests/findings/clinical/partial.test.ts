/**
 * Findings whose way out is not there: nothing listed to take instead, nothing to put it before, or steps that only a fallback brings
 * and that no edit of the operation can move. The finding stands all the same, at the next place that is given.
 */
import { describe, expect, test } from "vitest";
import { examplePlan } from "../../../server/findings/example.ts";
import type { Found } from "../../../server/findings/finding.ts";
import { codeParts, readCode } from "../../../server/findings/fracture-code.ts";
import { overlay } from "../../../server/meaning/overlay.ts";
import { reckon } from "../../../server/reckoning/reckon.ts";
import { changed, findingsOf, marked } from "../judged.ts";
import { lines, noFallback, protocol, without } from "./changes.ts";
import { asked, type Change, planRule, subjectOf } from "./table.ts";

const dynamised = (text: string): Change => ["    review at 2 weeks", `    dynamise ${text}\n    review at 2 weeks`];
const removal = examplePlan.slice(examplePlan.indexOf("  removal {"), -2);
const operation = examplePlan.slice(examplePlan.indexOf("  operation {"), examplePlan.indexOf("  fallback "));
const firm: Change = ["    core 3.9 mm\n", "    core 3.9 mm\n    with diameters 9 mm\n"];
const fallback = (steps: string): Change => ["    ream 8.5 mm to 11.5 mm by 0.5 mm\n", steps];

/** What a finding marks in the changed sample, and how many ways out it offers. */
function shown(slug: string, change: readonly Change[]): readonly (readonly [string, number])[] {
  const { text } = subjectOf(change);
  return asked(slug, change).found.map(({ place, fixes }) => [
    text.slice(place.span.start, place.span.end),
    fixes?.length ?? 0,
  ]);
}

describe("nothing to offer", () => {
  test.each<[slug: string, what: string, change: readonly Change[], at: string]>([
    [
      "screw-wrong",
      "a lock with no screw of its own",
      [["drilled 31 mm, screw 32 mm", "drilled 31 mm"], firm],
      "lock D2, drilled 31 mm",
    ],
    [
      "screw-unlisted",
      "a hole that is not listed either",
      [["lock D2, drilled 31 mm, screw", "lock D9, drilled 31 mm, screw dowel"]],
      "dowel",
    ],
    ["nail-unlisted", "a name like no other", [["nail fenwick, diameter", "nail qqqqqqqq, diameter"]], "qqqqqqqq"],
    ["removal-incomplete", "a removal without a step", [[removal, "  removal {\n  }\n"], without("cap")], "removal"],
    [
      "check-one-plane",
      "an empty check after the one",
      [["    check ap, lateral\n    lock", "    check ap\n    check\n    lock"]],
      "check",
    ],
    [
      "antibiotic-missing",
      "a plan without an operation",
      [
        [operation, ""],
        ["closed C1", "open II"],
        ["time-out, antibiotic\n}", "time-out\n}"],
      ],
      "soft-tissue open II",
    ],
    ["dynamise-impossible", "nothing is removed", [dynamised("at 8 weeks")], "dynamise at 8 weeks"],
    [
      "compression-beyond-travel",
      "compressed twice",
      [["    compress 2 turns\n", "    compress 2 turns\n    compress 8 turns\n"]],
      "compress 8 turns",
    ],
  ])("%s: %s", (slug, _, change, at) => {
    const all = shown(slug, change);
    expect(all).toContainEqual([at, 0]);
    expect(all.filter(([, ways]) => ways > 0)).toEqual([]);
  });

  test("a length out of proportion may be looked at without a length chosen", () => {
    const [finding] = asked("nail-length-estimate", [
      ["    landmark scar 416 mm ± 2 mm on ap\n", ""],
      ["    landmark plafond 432 mm ± 2 mm on ap\n", "    nail-length 348 mm ± 22 mm\n"],
      [", length 345 mm", ""],
    ]).found;
    expect(finding).toMatchObject({ at: "nail-length", related: [] });
  });

  test.each<[slug: string, what: string, change: readonly Change[]]>([
    [
      "fatigue-distance",
      "a nail without holes at its tip",
      [
        ["D2, tip 26 mm", "D2, top 52 mm"],
        ["D1, tip 12 mm", "D1, top 64 mm"],
      ],
    ],
    [
      "hole-unknown",
      "no hole named anywhere",
      [without("d1"), without("d2"), without("p1"), without("p2"), [removal, ""]],
    ],
    ["dynamise-impossible", "nothing compressed", [dynamised("at 8 weeks, remove P1"), without("compress")]],
    ["demanded", "a protocol that cannot be read", [["protocol/teaching", "protocol/none"]]],
    [
      "nail-length-estimate",
      "a single length listed",
      [
        ["    landmark scar 416 mm ± 2 mm on ap\n", ""],
        ["    landmark plafond 432 mm ± 2 mm on ap\n", "    nail-length 348 mm ± 22 mm\n"],
        ["lengths 240 mm to 420 mm by 15 mm", "lengths 345 mm"],
      ],
    ],
    [
      "knee-stiff",
      "it is not said how far the knee is bent on the table",
      [["distal-thigh, knee 100 deg", "distal-thigh"]],
    ],
  ])("%s is clear: %s", (slug, _, change) => {
    expect(asked(slug, change)).toEqual({ found: [] });
  });
});

test.each([
  ["2R1A3", 'does not have "2R1A3": it is no code of the classification.'],
  ["99A2", 'does not have "99A2": humerus, femur, tibia and fibula have no segment 99.'],
  ["42A2[zz]", 'does not have "42A2[zz]": there is no modifier "zz" (from memory, check against the source).'],
])("a code that is none, %s", (code, says) => {
  const [finding] = asked("code-unknown", [["fracture 42A2", `fracture ${code}`]]).found;
  expect(finding?.message).toContain(says);
  expect(finding?.fixes?.length).toBe(code === "42A2[zz]" ? 1 : 0);
});

test("parts of a code that the classification does not have mean nothing", () => {
  const parts = (code: string) =>
    [readCode(code)].flatMap((read) => (read === undefined ? ["unread"] : codeParts(read).map(({ text }) => text)));
  expect(parts("99A2")).toEqual([]);
  expect(parts("42A2[99]")).toEqual(["42A2"]);
});

describe("wider than the list", () => {
  const estimate = (typed: string): readonly Change[] => [
    ["    landmark scar 416 mm ± 2 mm on ap\n", ""],
    ["    landmark plafond 432 mm ± 2 mm on ap\n", `    nail-length ${typed}\n`],
  ];

  // The largest listed lengths are 405 mm and 420 mm: the step between them is 15 mm.
  test.each([
    ["430 mm ± 15 mm", 0],
    ["430 mm ± 16 mm", 1],
  ] as const)("an estimate past the longest length, %s", (typed, count) => {
    expect(asked("nail-length-estimate", estimate(typed)).found).toHaveLength(count);
  });

  test("no length listed", () => {
    const change: readonly Change[] = [...estimate("348 mm ± 22 mm"), ["    lengths 240 mm to 420 mm by 15 mm\n", ""]];
    expect(asked("nail-length-estimate", change)).toEqual({ found: [], untold: ["nail fenwick lists no length"] });
  });
});

describe("the way out of the rest of the plan", () => {
  test("a screw left in goes before the nail is drawn where no extractor is attached", () => {
    const [finding] = asked("removal-incomplete", [
      ["    attach extractor\n    take D1, D2, P2", "    take D2, P2"],
    ]).found;
    expect(finding?.at).toBe("D1");
    const { text } = subjectOf([["    attach extractor\n    take D1, D2, P2", "    take D2, P2"]]);
    const [edit] = finding?.fixes?.[0]?.edits ?? [];
    expect(edit).toMatchObject({ text: "    take D1\n", span: { start: text.indexOf("    withdraw nail") } });
  });

  test("the cap is taken out of the head of its line as out of its tail", () => {
    const first = asked("removal-order", [
      ["    take cap\n", ""],
      ["take D1, D2, P2", "take cap, D1, D2, P2"],
    ]).found.find(({ at }) => at === "cap");
    expect(first?.fixes?.[0]?.edits.map(({ text }) => text)).toEqual(["    take cap\n", ""]);
    const { text } = subjectOf([
      ["    take cap\n", ""],
      ["take D1, D2, P2", "take cap, D1, D2, P2"],
    ]);
    const span = first?.fixes?.[0]?.edits[1]?.span;
    expect(text.slice(span?.start, span?.end)).toBe("cap, ");
  });

  test("a cap is put in where no removal is planned", () => {
    const [finding] = asked("cap-missing", [without("cap"), [removal, ""]]).found;
    expect(finding?.fixes?.[0]?.edits.map(({ text }) => text)).toEqual(["    cap 5 mm\n"]);
  });

  test("two screws still hold the end with the slot", () => {
    const held = asked("dynamise-impossible", [
      dynamised("at 8 weeks, remove D1"),
      ["hole D2, tip 26 mm", "hole P3, top 52 mm, runs medial-lateral, takes peg\n    hole D2, tip 26 mm"],
      [lines.p1, `${lines.p1}    lock P3, drilled 49 mm, screw 50 mm\n`],
    ]).found;
    expect(held.map(({ message }) => message)).toEqual([
      "Dynamisation sets nothing free: P1 and P3 still hold the end with the slot.",
    ]);
  });

  test("near the surface before anything draws the nail back", () => {
    const [finding] = findingsOf(changed(protocol("limit top-below-bone at-least 9 mm")), "nail-proud");
    expect(finding?.message).toMatch(/^The driving end lies 8 mm below the bone's surface; /);
  });

  test("each plane without an upper limit leaves the true angle alone", () => {
    const change: readonly Change[] = [
      [
        "  aftercare {\n",
        "  achieved {\n    alignment coronal 4 deg varus, sagittal 4 deg procurvatum\n  }\n\n  aftercare {\n",
      ],
      protocol("limit coronal at-least 1 deg"),
    ];
    expect(findingsOf(changed(...change), "alignment-off")).toEqual([]);
  });

  test("a knee is held against no least angle where the protocol sets an upper one", () => {
    const change: readonly Change[] = [protocol("limit knee-flexion up-to 140 deg"), ["knee 100 deg", "knee 60 deg"]];
    expect(findingsOf(changed(...change), "knee-stiff")).toEqual([]);
  });

  test.each([
    ["reaming-step", "    ream 8.5 mm\n    ream 11 mm\n", "11 mm"],
    ["reaming-order", "    ream 11 mm\n    ream 9 mm\n", "9 mm"],
  ])("%s: heads in two lines are not rewritten", (slug, lines, at) => {
    expect(shown(slug, [noFallback, ["    ream 8.5 mm to 11 mm by 0.5 mm\n", lines]])).toEqual([[at, 0]]);
  });

  test("a reaming without heads has no range to end", () => {
    const analysis = changed(noFallback, ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    ream\n"]);
    expect(findingsOf(analysis, "range-unreached")).toEqual([]);
    expect(analysis.judgement.outcomes.get("range-unreached")?.outcome).toBe("cannot tell");
  });

  test("a cap goes behind a compression that is done last of all", () => {
    const change: readonly Change[] = [
      [lines.compress, ""],
      [lines.cap, `${lines.cap}${lines.compress}`],
      [lines.p1, ""],
      ["    take P1\n", ""],
    ];
    const found = asked("step-order", change).found.filter(({ at }) => at === "cap");
    expect(found.map(({ fixes }) => fixes?.map(({ title }) => title))).toEqual([["cap after the compression"]]);
  });
});

describe("steps that only a fallback brings", () => {
  /** The rule over the plan with its fallback laid over it. */
  function laid(slug: string, change: readonly Change[]): readonly Found[] {
    const subject = subjectOf(change);
    const [first] = subject.plan.fallbacks;
    if (first === undefined) throw new Error("the change leaves no fallback");
    const plan = overlay(subject.plan, first);
    return planRule(slug).check({ ...subject, plan, reckonings: reckon(plan) }).found;
  }

  test.each<[slug: string, what: string, change: readonly Change[]]>([
    [
      "step-order",
      "a screw before the nail",
      [[lines.d2, ""], [lines.nail, lines.d2 + lines.nail], fallback(lines.d2)],
    ],
    ["step-order", "no check before locking", [[lines.check, ""], fallback(lines.d2)]],
    ["step-order", "a cap too early", [[lines.cap, ""], [lines.p1, lines.cap + lines.p1], fallback(lines.cap)]],
    ["step-order", "no check at the end", [[lines.finalCheck, ""], fallback("    cap 10 mm\n")]],
    [
      "locking-order",
      "the far end too late",
      [[lines.d2, ""], [lines.d1, ""], [lines.compress, lines.compress + lines.d2], fallback(lines.d2)],
    ],
    [
      "compression-unprepared",
      "the slot screw too late",
      [[lines.p2, ""], [lines.compress, lines.compress + lines.p2], fallback(lines.p2)],
    ],
    [
      "block-side",
      "a blocking screw after the reaming",
      [[lines.nail, `    block at 220 mm, side medial, screw 40 mm\n${lines.nail}`]],
    ],
    ["cap-missing", "the last screw at the driving end", [without("cap"), fallback(lines.p1)]],
  ])("%s: %s", (slug, _, change) => {
    const found = laid(slug, change);
    expect(found.length).toBeGreaterThan(0);
    for (const { fixes } of found) expect(fixes).toEqual([]);
  });

  test("no operation: nothing can be moved", () => {
    const change: readonly Change[] = [[operation, ""], fallback(`${lines.d2}${lines.nail}`)];
    for (const { fixes } of laid("step-order", change)) expect(fixes).toEqual([]);
  });

  test("what a fallback does to the operation is told at the fallback", () => {
    const analysis = changed(fallback("    nail fenwick, diameter 10 mm, length 240 mm, sunk 8 mm\n"));
    const outside = analysis.judgement.findings.filter(
      ({ fallback: under, related }) =>
        under !== undefined && related?.some(({ message }) => message === "With the fallback it is found here."),
    );
    expect(outside.length).toBeGreaterThan(0);
    for (const each of outside) expect(marked(analysis, each)).toBe('"the 10 mm nail stops at the isthmus"');
  });
});
