/** A fallback laid over its plan: which step replaces which, and where a new one goes. */
import { describe, expect, test } from "vitest";
import { exampleCatalogue as catalogueText, examplePlan as planText } from "../../server/findings/example.ts";
import { overlay } from "../../server/meaning/overlay.ts";
import type { Plan, Step } from "../../server/meaning/plan.ts";
import { library, libraryOf, problemsOf, shown, understoodPlan } from "./texts.ts";

function laidOver(lines: string, text = planText, from = library): Plan {
  const changed = text.replace("    ream 8.5 mm to 11.5 mm by 0.5 mm\n", `    ${lines}\n`);
  expect(problemsOf(changed, from)).toEqual([]);
  const plan = understoodPlan(changed, from);
  const [fallback] = plan.fallbacks;
  if (fallback === undefined) {
    throw new Error("there is no fallback");
  }
  return overlay(plan, fallback);
}

function inWords(steps: readonly Step[]): string {
  return steps.map((step) => (step.kind === "lock" ? step.hole.text : step.kind)).join(" ");
}

const asPlanned = "prepare position reduce enter wire ream nail check D2 D1 P2 compress P1 cap check";

describe("a step of a fallback", () => {
  test("replaces the step of the same word", () => {
    const { steps, fallbacks } = laidOver("ream 8.5 mm to 11.5 mm by 0.5 mm");
    expect(inWords(steps)).toBe(asPlanned);
    const ream = steps.find((step) => step.kind === "ream");
    expect(ream?.kind === "ream" ? shown(ream.heads.sizes.at(-1)) : ream).toBe("11.5 mm");
    expect(fallbacks).toEqual([]);
  });

  test("replaces the lock of the same hole alone", () => {
    const { steps } = laidOver("lock D1, drilled 40 mm, screw 42 mm");
    expect(inWords(steps)).toBe(asPlanned);
    const screws = steps.flatMap((step) => (step.kind === "lock" ? [`${step.hole.text} ${shown(step.screw)}`] : []));
    expect(screws).toEqual(["D2 32 mm", "D1 42 mm", "P2 54 mm", "P1 52 mm"]);
  });

  test("replaces reaming by none, and the other way round", () => {
    expect(inWords(laidOver("unreamed").steps)).toBe(asPlanned.replace("ream", "unreamed"));
    const unreamed = planText.replace("ream 8.5 mm to 11 mm by 0.5 mm", "unreamed");
    expect(inWords(laidOver("ream 8.5 mm to 11.5 mm by 0.5 mm", unreamed).steps)).toBe(asPlanned);
  });

  test("replaces two checks by two checks in their order", () => {
    const { steps } = laidOver("check ap\n    check lateral");
    expect(inWords(steps)).toBe(asPlanned);
    const checks = steps.flatMap((step) =>
      step.kind === "check" ? [step.things.map((thing) => thing.text).join()] : [],
    );
    expect(checks).toEqual(["ap", "lateral"]);
  });

  test.each([
    ["block at 300 mm, side lateral", asPlanned.replace("ream", "block ream")],
    ["backslap 2 mm", asPlanned.replace("compress", "backslap compress")],
    ["check ap\n    check lateral\n    check length", `${asPlanned} check`],
    ['step "Wait."', `${asPlanned} step`],
    ['wire smooth\n    step "Wait."', asPlanned.replace("wire", "wire step")],
    ["lock D3, drilled 30 mm, screw 32 mm", asPlanned.replace("P2", "P2 D3")],
  ])("that is new goes to its sound place: %s", (lines, expected) => {
    expect(inWords(laidOver(lines).steps)).toBe(expected);
  });

  test("at the driving end goes behind compression, before the cap", () => {
    const more = catalogueText.replace(
      "    hole D2,",
      "    hole P3, top 50 mm, runs medial-lateral, takes peg\n    hole D2,",
    );
    const from = libraryOf(new Map([["catalogue/fenwick.isthmus", more]]));
    const text = planText.replace('  follow "protocol/teaching.isthmus"\n', "");
    expect(inWords(laidOver("lock P3, drilled 30 mm, screw 32 mm", text, from).steps)).toBe(
      asPlanned.replace("P1", "P1 P3"),
    );
  });

  test("that comes before everything the plan has goes first", () => {
    const bare = planText.replace(/ {4}prepare[\s\S]* {4}wire ball-tip\n[^\n]*\n {4}ream[^\n]*\n/, "");
    const plan = laidOver("prepare antibiotic", bare);
    expect(inWords(plan.steps)).toBe("prepare nail check D2 D1 P2 compress P1 cap check");
  });

  test("may choose another nail", () => {
    const two = catalogueText.replace(
      "  screws peg {",
      "  nail spare {\n    for tibia\n    diameters 9 mm\n    lengths 330 mm\n  }\n\n  screws peg {",
    );
    const from = libraryOf(new Map([["catalogue/fenwick.isthmus", two]]));
    const text = planText.replace('  follow "protocol/teaching.isthmus"\n', "");
    const line = (name: string) => `nail ${name}, diameter 9 mm, length 330 mm, sunk 8 mm`;
    expect(laidOver(line("spare"), text, from).nail?.name.text).toBe("spare");
    expect(laidOver(line("nowhere"), text, from).nail).toBeUndefined();
    expect(laidOver("cap 10 mm", text, from).nail?.name.text).toBe("fenwick");
  });

  test("leaves the plan itself as it was", () => {
    const plan = understoodPlan(planText);
    const before = JSON.stringify(plan.steps);
    for (const fallback of plan.fallbacks) {
      overlay(plan, fallback);
    }
    expect(JSON.stringify(plan.steps)).toBe(before);
  });
});
