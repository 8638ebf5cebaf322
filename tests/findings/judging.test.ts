/** Values below, at, above and astride a limit, with the probability of JCGM 106:2012, 7 and what is said of it. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Finding, Grade } from "../../server/findings/finding.ts";
import { gradeUnder } from "../../server/findings/grading.ts";
import {
  cannotTell,
  type Judged,
  judgeAtLeast,
  judgeAtMost,
  judgeBounds,
  milder,
  type Question,
  together,
} from "../../server/findings/judging.ts";
import { constant, measured, unknown } from "../../server/quantity/arithmetic.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";

const place = { file: "plan.isthmus", span: { start: 0, end: 4 } };
const ten = constant(10, "mm");

function mm(value: number, plusMinus = 0): Quantity {
  if (plusMinus === 0) return constant(value, "mm");
  return measured(value, plusMinus, "mm", { id: `reading ${value}`, label: "reading" });
}

function gradeOf(judged: Judged): Grade | "unknown" | undefined {
  if (judged === undefined) return undefined;
  return judged.kind === "unknown" ? "unknown" : judged.grade;
}

describe("an exact value", () => {
  test.each([
    [9.99, undefined],
    [10, undefined],
    [10.01, "error"],
  ] as const)("%d mm against at most 10 mm", (value, grade) => {
    expect(gradeOf(judgeAtMost(mm(value), ten, "error"))).toBe(grade);
  });

  test.each([
    [9.99, "error"],
    [10, undefined],
    [10.01, undefined],
  ] as const)("%d mm against at least 10 mm", (value, grade) => {
    expect(gradeOf(judgeAtLeast(mm(value), ten, "error"))).toBe(grade);
  });

  test("at a strict limit is found", () => {
    expect(gradeOf(judgeAtLeast(mm(10), ten, "warning", { strict: true }))).toBe("warning");
    expect(gradeOf(judgeAtMost(mm(10), ten, "warning", { strict: true }))).toBe("warning");
    expect(judgeAtLeast(mm(10.01), ten, "warning", { strict: true })).toBeUndefined();
    expect(judgeAtMost(mm(9.99), ten, "warning", { strict: true })).toBeUndefined();
  });

  test("keeps a limit it equals after decimal arithmetic", () => {
    expect(judgeAtMost(mm(0.1 + 0.2), constant(0.3, "mm"), "error")).toBeUndefined();
  });

  test("beyond has probability 1 and no words of chance", () => {
    expect(judgeAtMost(mm(11), ten, "error")).toMatchObject({ probability: 1, sure: true, chance: "" });
  });
});

describe("an uncertain value", () => {
  // u is half of ±; the quantiles 1.6449 (95 %) and 0 (50 %) are those of the normal distribution.
  test.each([
    [8, 2, undefined, 0.0228],
    [8.355, 2, undefined, 0.04999],
    [8.356, 2, "warning", 0.05009],
    [10, 2, "warning", 0.5],
    [11.644, 2, "warning", 0.94991],
    [11.645, 2, "error", 0.95002],
    [14, 2, "error", 0.99997],
  ] as const)("%d mm ± %d mm against at most 10 mm", (value, plusMinus, grade, probability) => {
    const judged = judgeAtMost(mm(value, plusMinus), ten, "error");
    expect(gradeOf(judged)).toBe(grade);
    if (judged?.kind === "beyond") expect(judged.probability).toBeCloseTo(probability, 4);
  });

  test("is judged alike on the other side", () => {
    expect(judgeAtLeast(mm(11.645, 2), ten, "error")).toBeUndefined();
    expect(gradeOf(judgeAtLeast(mm(8.355, 2), ten, "error"))).toBe("error");
    expect(gradeOf(judgeAtLeast(mm(8.357, 2), ten, "error"))).toBe("warning");
  });

  test("that shares its reading with the limit has no uncertainty against it", () => {
    const reading = { id: "same", label: "reading" };
    const value = measured(11, 2, "mm", reading);
    const limit = measured(10, 2, "mm", reading);
    expect(judgeAtMost(value, limit, "error")).toMatchObject({ probability: 1, sure: true, chance: "" });
  });

  test("is never shown the percentage of the other grade", () => {
    expect(judgeAtMost(mm(11.6448, 2), ten, "error")).toMatchObject({
      sure: false,
      chance: "probability just under 95 %",
    });
  });

  test("the further beyond, the more probable, the graver", () => {
    const rank = { error: 2, warning: 1, information: 0 };
    const number = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(number, number, fc.double({ min: 0.1, max: 5, noNaN: true }), (a, b, plusMinus) => {
        const near = judgeAtMost(mm(Math.min(a, b), plusMinus), ten, "error");
        const far = judgeAtMost(mm(Math.max(a, b), plusMinus), ten, "error");
        if (near?.kind !== "beyond") return;
        expect(far?.kind).toBe("beyond");
        if (far?.kind !== "beyond") return;
        expect(far.probability).toBeGreaterThanOrEqual(near.probability);
        expect(rank[far.grade]).toBeGreaterThanOrEqual(rank[near.grade]);
      }),
    );
  });
});

describe("what cannot be told", () => {
  test("an unknown value or limit", () => {
    expect(judgeAtMost(unknown("no landmark"), ten, "error")).toMatchObject({
      kind: "unknown",
      because: "no landmark",
    });
    expect(judgeAtMost(mm(1), unknown("no travel"), "error")).toMatchObject({ kind: "unknown", because: "no travel" });
  });

  test("a value of another dimension", () => {
    expect(gradeOf(judgeAtMost(constant(1, "deg"), ten, "error"))).toBe("unknown");
  });

  test("a limit that is not there is never passed", () => {
    expect(judgeAtMost(mm(1000), undefined, "error")).toBeUndefined();
  });

  test("reasons are kept once", () => {
    expect(together([cannotTell("a"), cannotTell("a", "b")]).untold).toEqual(["a", "b"]);
    expect(together([])).toEqual({ found: [] });
  });
});

describe("a whole question", () => {
  const question: Question = {
    value: mm(11.3, 2),
    bounds: { least: mm(2), most: ten },
    grade: "warning",
    unit: "mm",
    place,
    at: "P1",
    message: (told) => `The tip ${told.may("lies", "may lie")} ${told.value} out, ${told.margin} past ${told.limit}.`,
  };
  const only = (asked: Question) => judgeBounds(asked).found[0];

  test("is worded with its probability before the full stop", () => {
    expect(only(question)).toMatchObject({
      message: "The tip may lie 11.3 mm ± 2.0 mm out, 1.3 mm ± 2.0 mm past 10 mm (probability 90 %).",
      grade: "information",
      at: "P1",
      unit: "mm",
    });
    expect(only(question)?.probability).toBeCloseTo(0.9032, 4);
  });

  test("says so when it is sure", () => {
    expect(only({ ...question, value: mm(12, 2) })).toMatchObject({
      message: "The tip lies 12.0 mm ± 2.0 mm out, 2.0 mm ± 2.0 mm past 10 mm (probability 98 %).",
      grade: "warning",
    });
  });

  test("leaves the probability out when exact", () => {
    expect(only({ ...question, value: mm(12) })?.message).toBe("The tip lies 12 mm out, 2 mm past 10 mm.");
  });

  test("counts the margin positive on either side", () => {
    const low = only({ ...question, value: mm(0.5) });
    expect(low?.message).toBe("The tip lies 0.5 mm out, 1.5 mm past 2 mm.");
    expect(low?.margin).toMatchObject({ value: 1.5 });
  });

  test("asks about one side only when told to", () => {
    expect(judgeBounds({ ...question, value: mm(0.5), side: "most" }).found).toEqual([]);
    expect(judgeBounds({ ...question, value: mm(11), side: "least" }).found).toEqual([]);
  });

  test("shows enough digits not to contradict itself", () => {
    expect(only({ ...question, value: mm(10.0004) })?.message).toBe(
      "The tip lies 10.0004 mm out, 0.0004 mm past 10 mm.",
    );
  });

  test("is not judged against a limit that cannot be read", () => {
    const bounds = { most: ten, unreadable: "limit x is unknown" };
    expect(judgeBounds({ ...question, bounds })).toEqual({ found: [], untold: ["limit x is unknown"] });
  });

  test("hands the words to its fixes", () => {
    const fixes = (told: { readonly side: string }) => [
      { title: `less, past the ${told.side}`, class: "changes a decision" as const, edits: [] },
    ];
    expect(only({ ...question, fixes })?.fixes?.[0]?.title).toBe("less, past the most");
  });
});

describe("grades", () => {
  test("one milder", () => {
    expect((["error", "warning", "information"] as const).map(milder)).toEqual([
      "warning",
      "information",
      "information",
    ]);
  });

  test.each([
    [undefined, "error", "warning", "warning"],
    [undefined, "error", undefined, "error"],
    ["warning", "error", undefined, "warning"],
    ["warning", "error", "warning", "information"],
    ["information", "error", "warning", "information"],
    ["error", "information", "information", "error"],
    ["error", "warning", "information", "warning"],
    ["warning", "warning", "error", "error"],
    ["information", "warning", "error", "warning"],
    ["error", "warning", "error", "error"],
  ] as const)("set to %s, own %s, given %s: %s", (set, own, given, expected: Finding["grade"]) => {
    expect(gradeUnder(set, own, given)).toBe(expected);
  });
});
