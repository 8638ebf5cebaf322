/** The small lookups the rules share, asked for what the tables have and for what they lack. */
import { describe, expect, test } from "vitest";
import { aboutList } from "../../server/findings/catalogue-checks.ts";
import { examplePlan } from "../../server/findings/example.ts";
import { withMeaning } from "../../server/findings/fracture-code.ts";
import { gradeSettings, gradeUnder } from "../../server/findings/grading.ts";
import { limitsOf } from "../../server/findings/limits.ts";
import { asByDefault } from "../../server/findings/profiles.ts";
import { rule as reamingStart } from "../../server/findings/reaming-start.ts";
import { attempt } from "../../server/findings/running.ts";
import type { Plan } from "../../server/meaning/plan.ts";
import { constant } from "../../server/quantity/arithmetic.ts";
import { reckon } from "../../server/reckoning/reckon.ts";
import type { Reckoning } from "../../server/reckoning/reckoning.ts";
import { changed, findingsOf, judged } from "./judged.ts";

test("a list that is not there is nothing to point to", () => {
  expect(aboutList(undefined, "The listed lengths.")).toEqual([]);
});

test("a code is told with its group's meaning, where the classification has the group", () => {
  expect(withMeaning("42A3(b)")).toBe("42A3(b): transverse, less than 30 deg");
  expect(withMeaning("42A4")).toBe("42A4");
  expect(withMeaning("of 2018")).toBe("of 2018");
});

test("a profile takes a limit's upper end, and refuses one that has none", () => {
  expect(asByDefault("coronal")).toMatchObject({ limit: "coronal", most: 5, unit: "deg" });
  expect(() => asByDefault("top-below-joint")).toThrow("limit top-below-joint has no upper end by default");
});

describe("grades", () => {
  test("a protocol's grade moves a finding by as much as it is milder than its rule", () => {
    expect(gradeUnder(undefined, "error", "warning")).toBe("warning");
    expect(gradeUnder("off", "error", undefined)).toBe("error");
    expect(gradeUnder("warning", "error", undefined)).toBe("warning");
    expect(gradeUnder("warning", "error", "warning")).toBe("information");
    expect(gradeUnder("information", "error", "warning")).toBe("information");
    expect(gradeUnder("error", "warning", "information")).toBe("warning");
    expect(gradeUnder("error", "warning", "error")).toBe("error");
  });

  test("a grade that is none changes nothing", () => {
    const grade = (word: string) =>
      findingsOf(
        changed(["cap 5 mm\n", "\n"], ["grade cap-missing warning", `grade cap-missing ${word}`]),
        "cap-missing",
      );
    expect(grade("error")).toMatchObject([{ grade: "error" }]);
    expect(grade("loud")).toMatchObject([{ grade: "information" }]);
    const plan = planOf();
    const said = (text: string) => ({ text, place: plan.operation });
    const set = (word: string) => ({ finding: said("cap-missing"), grade: said(word), place: plan.operation });
    const follows = plan.follows.map(({ document, ...rest }) => ({
      ...rest,
      document: document && { ...document, grades: [set("error"), set("loud")] },
    }));
    expect([...gradeSettings({ ...plan, follows })]).toEqual([["cap-missing", "error"]]);
  });
});

test("what a check throws is told, whether it is an error or not", () => {
  const failing = (thrown: unknown) => () => {
    throw thrown;
  };
  expect(attempt(failing(new Error("out of paper")))).toEqual({
    found: [],
    untold: ["the check failed: out of paper"],
  });
  expect(attempt(failing("out of ink"))).toEqual({ found: [], untold: ["the check failed: out of ink"] });
});

test("a list of heads without any is marked as a whole", () => {
  const plan = planOf();
  const steps = plan.steps.map((step) =>
    step.kind === "ream" ? { ...step, heads: { ...step.heads, sizes: [] } } : step,
  );
  const reckonings = reckon(plan);
  const limits = limitsOf([]);
  const start = reckonings.byId.get("ream.start");
  const byId = new Map([...reckonings.byId, ["ream.start", { ...start, answer: constant(3, "mm") } as Reckoning]]);
  const subject = { plan: { ...plan, steps }, text: examplePlan, reckonings: { ...reckonings, byId }, limits };
  const { found } = reamingStart.check(subject);
  expect(found.map(({ place: { span } }) => examplePlan.slice(span.start, span.end))).toEqual([
    "8.5 mm to 11 mm by 0.5 mm",
  ]);
});

test("a hole without a place on the nail is on no side of it", () => {
  const analysis = changed(["    hole D1, tip 12 mm, runs", "    hole D1, runs"]);
  expect(findingsOf(analysis, "part-off-nail")).toEqual([]);
});

test("what is no length has no place in the order of a list", () => {
  const list = (lengths: string) =>
    findingsOf(
      judged({ change: [["lengths 240 mm to 420 mm by 15 mm", `lengths ${lengths}`]], of: "catalogue" }),
      "sizes-disordered",
    );
  expect(list("240 mm, 20 deg, 300 mm")).toEqual([]);
  expect(list("240 mm, 20 mm, 300 mm")).toMatchObject([
    { message: expect.stringContaining("20 mm comes after 240 mm") },
  ]);
});

function planOf(): Plan {
  const { document } = changed().meaning;
  if (document?.kind !== "plan") throw new Error("the example is a plan");
  return document;
}
