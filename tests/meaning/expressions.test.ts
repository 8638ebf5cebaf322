/** Expressions: values, functions, readings on views, and what is told when units or names do not fit. */
import { describe, expect, test } from "vitest";
import { examplePlan as planText } from "../../server/findings/example.ts";
import { covariance, standardUncertainty } from "../../server/quantity/arithmetic.ts";
import { planWith, problemsOf, shown, understoodPlan } from "./texts.ts";

/** What the plan makes of an expression of its own. */
function workedOut(expression: string, unit = "mm"): string {
  const plan = understoodPlan(planWith("  case TN-0417 {", `  let probe = ${expression}\n\n  case TN-0417 {`));
  const named = plan.names.find((name) => name.name === "probe");
  return shown(named?.typed, unit);
}

function problemsOfValue(expression: string): readonly string[] {
  return problemsOf(planWith("sunk 8 mm", `sunk ${expression}`));
}

describe("an expression", () => {
  test.each([
    ["2 * 3 mm + 4 mm", "mm", "10 mm"],
    ["(2 + 3) * 4 mm", "mm", "20 mm"],
    ["900 mm - 548 mm", "mm", "352 mm"],
    ["-5 mm", "mm", "-5 mm"],
    ["1.5 cm", "mm", "15 mm"],
    ["12 mm / 4", "mm", "3 mm"],
    ["min(3 mm, 2 mm, 4 mm)", "mm", "2 mm"],
    ["max(3 mm, 2 cm)", "mm", "20 mm"],
    ["mean(3 mm, 5 mm)", "mm", "4 mm"],
    ["abs(3 mm - 5 mm)", "mm", "2 mm"],
    ["sqrt(9 mm * 4 mm)", "mm", "6 mm"],
    ["hypot(3 mm, 4 mm, 12 mm)", "mm", "13 mm"],
    ["sin(30 deg) * 8 mm", "mm", "4 mm"],
    ["cos(60 deg) * 8 mm", "mm", "4 mm"],
    ["tan(45 deg) * 8 mm", "mm", "8 mm"],
    ["atan2(3 mm, 3 mm)", "deg", "45 deg"],
    ["round-up(352 mm, 15 mm)", "mm", "360 mm"],
    ["round-down(352 mm, 15 mm)", "mm", "345 mm"],
    ["knee-joint + 3 mm", "mm", "3 mm"],
    ["joint - plafond", "mm", "0 mm"],
  ])("%s is worked out", (expression, unit, expected) => {
    expect(workedOut(expression, unit)).toBe(expected);
  });

  test("knows landmarks, also before the line that gives them", () => {
    // 432 / 1.15 - 45 = 330.652…; the uncertainty is the plafond's own, 3.14 mm.
    expect(workedOut("plafond - 45 mm")).toBe("330.7 mm ± 3.1 mm");
    expect(workedOut("scar - scar")).toBe("0 mm");
  });

  test("keeps two readings on one view correlated through its marker", () => {
    const [scar, plafond] = understoodPlan(planText).measures.landmarks.map((landmark) => landmark.level.quantity);
    if (scar?.kind !== "known" || plafond?.kind !== "known") {
      throw new Error("the landmarks are not known");
    }
    // Only the marker is shared: (416 × 0.004 / 1.15²) × (432 × 0.004 / 1.15²) = 1.25822 × 1.30662.
    expect(covariance(scar, plafond)).toBeCloseTo(1.25822 * 1.30662, 3);
    expect(standardUncertainty(scar)).toBeCloseTo(1.52946, 4);
  });

  test("on a view in true size is what was typed", () => {
    const plan = understoodPlan(
      planWith("view ap, marker 25 mm, seen 28.75 mm ± 0.2 mm", "view ap, true-size").replace(
        "gap 3 mm ± 1 mm",
        "gap 3 mm ± 1 mm on ap",
      ),
    );
    expect(plan.views[0]).toMatchObject({ trueSize: true, marker: undefined, seen: undefined });
    expect(plan.case?.fracture?.from?.quantity).toMatchObject({ value: 208, typed: { text: "208", unit: "mm" } });
    expect(shown(plan.case?.fracture?.gap)).toBe("3.0 mm ± 1.0 mm");
  });

  test("tells two typed ± in one expression apart", () => {
    const plan = understoodPlan(planWith("416 mm ± 2 mm on ap", "mean(415 mm ± 2 mm, 417 mm ± 2 mm)"));
    const { quantity } = plan.measures.landmarks[0]?.level ?? {};
    const labels = quantity?.kind === "known" ? quantity.influences.map((influence) => influence.reading.label) : [];
    expect(labels).toEqual(["scar (415 mm)", "scar (417 mm)"]);
  });
});

describe("one mistake is told once, where it is made", () => {
  test.each([
    ["8 mm + 3 deg", ["unit-mismatch 8 mm + 3 deg"]],
    ["8 mm + 3", ["unit-mismatch 8 mm + 3"]],
    ["2 * 3", ["unit-mismatch 2 * 3"]],
    ["sin(8 mm) * 8 mm", ["unit-mismatch sin(8 mm)"]],
    ["max(8 mm, 3 deg)", ["unit-mismatch max(8 mm, 3 deg)"]],
    ["round-up(8 mm, 1 deg)", ["unit-mismatch round-up(8 mm, 1 deg)"]],
    ["8 mm / 0", ["unreadable 8 mm / 0"]],
    ["8 mm / (3 mm - 3 mm) * 1 mm", ["unreadable 8 mm / (3 mm - 3 mm)"]],
    ["abs(8 mm, 3 mm)", ["unreadable abs(8 mm, 3 mm)"]],
    ["max()", ["unreadable max()"]],
    ["atan2(8 mm)", ["unreadable atan2(8 mm)"]],
    ["maxx(8 mm, 3 mm)", ["unknown-word maxx"]],
    ["scra - 300 mm", ["name-unknown scra"]],
    ["8 mm on lateal", ["scale-missing lateal"]],
    ["8 deg on ap", ["unit-mismatch 8 deg"]],
    ["(8 mm + 3 deg) on ap", ["unit-mismatch 8 mm + 3 deg"]],
    ["8 mm ± 1 deg", ["unit-mismatch 8 mm ± 1 deg"]],
    ["8", ["unit-missing 8"]],
    ["8 deg", ["unit-mismatch 8 deg"]],
    ["8 mm * 2 mm", ["unit-mismatch 8 mm * 2 mm"]],
  ])("sunk %s", (expression, expected) => {
    expect(problemsOfValue(expression)).toEqual(expected);
    const step = understoodPlan(planWith("sunk 8 mm", `sunk ${expression}`)).steps.find(({ kind }) => kind === "nail");
    expect(step?.kind === "nail" ? step.sunk?.quantity.kind : step).toBe("unknown");
  });

  test("a level that is no length", () => {
    expect(problemsOf(planWith("canal at 60 mm", "canal at 60 mm * scar"))).toEqual(["unit-mismatch 60 mm * scar"]);
  });

  test("both dimensions are named", () => {
    const { problems } = understoodPlan(planWith("sunk 8 mm", "sunk 8 mm + 3 deg"));
    expect(problems).toMatchObject([{ slug: "unit-mismatch", found: "an angle", expected: ["a length"] }]);
  });

  test("a marker without a size leaves the view's readings unknown and says nothing more", () => {
    const text = planWith("marker 25 mm, seen 28.75 mm ± 0.2 mm", "marker 25 mm - 25 mm, seen 28.75 mm ± 0.2 mm");
    const plan = understoodPlan(text);
    expect(shown(plan.measures.landmarks[0]?.level)).toBe("unknown: the marker of view ap has no size");
    expect(problemsOf(text)).toEqual([]);
  });

  test("a marker seen without any size leaves the readings unknown, the magnification itself known", () => {
    const text = planWith("seen 28.75 mm ± 0.2 mm", "seen 0 mm");
    const plan = understoodPlan(text);
    expect(shown(plan.measures.landmarks[0]?.level)).toBe("unknown: the magnification of ap is not above 0");
    expect(plan.views[0]?.magnification).toMatchObject({ kind: "known", value: 0 });
    expect(problemsOf(text)).toEqual([]);
  });

  test("a range of heads that leads nowhere", () => {
    const text = planWith("ream 8.5 mm to 11 mm by 0.5 mm", "ream 11 mm to 8.5 mm by 0.5 mm");
    expect(problemsOf(text)).toEqual(["unreadable 11 mm to 8.5 mm by 0.5 mm"]);
    const step = understoodPlan(text).steps.find(({ kind }) => kind === "ream");
    expect(step?.kind === "ream" ? step.heads.sizes.map((size) => size.quantity.kind) : step).toEqual(["unknown"]);
  });

  test("one head without its unit leaves the other heads known", () => {
    const step = understoodPlan(
      planWith("8.5 mm to 11 mm by 0.5 mm\n    nail", "8.5 mm, 9, 9.5 mm\n    nail"),
    ).steps.find(({ kind }) => kind === "ream");
    const kinds = step?.kind === "ream" ? step.heads.sizes.map((size) => size.quantity.kind) : step;
    expect(kinds).toEqual(["known", "unknown", "known"]);
  });
});
