/**
 * Lays a fallback over a plan: the plan as it would be done when the fallback is needed. Steps replace the same steps; what is
 * new is put where it is soundly done. The result is a plan like any other and is reckoned and judged the same way.
 */
import type { CatalogueHole, CatalogueNail, Fallback, LockStep, Plan, Step } from "./plan.ts";
import { nailOf } from "./plan-document.ts";

/** The plan with the steps of `fallback` in place of its own. The plan itself stays as it is. */
export function overlay(plan: Plan, fallback: Fallback): Plan {
  const renamed = fallback.steps.some((step) => step.kind === "nail" && step.name !== undefined);
  const nail = renamed ? nailOf(plan.uses, fallback.steps) : plan.nail;
  // What was achieved is held against the operation alone.
  return { ...plan, nail, steps: laidOver(plan.steps, fallback.steps, nail), fallbacks: [], achieved: undefined };
}

function laidOver(steps: readonly Step[], changes: readonly Step[], nail: CatalogueNail | undefined): readonly Step[] {
  const result = [...steps];
  const replaced = new Set<Step>();
  let latest: Step | undefined;
  for (const change of changes) {
    const at = result.findIndex((step) => !replaced.has(step) && sameStep(step, change));
    if (at >= 0) {
      result[at] = change;
    } else {
      result.splice(placeFor(result, change, latest, nail), 0, change);
    }
    replaced.add(change);
    latest = change;
  }
  return result;
}

/** A `lock` is the same step when it locks the same hole, `ream` and `unreamed` stand for one another, a `step` never. */
function sameStep(step: Step, change: Step): boolean {
  if (change.kind === "lock") {
    return step.kind === "lock" && step.hole.text === change.hole.text;
  }
  return change.kind !== "step" && rank(step) === rank(change);
}

/** Where a step that replaces none goes in: after the last step that is done before its kind. */
function placeFor(
  steps: readonly Step[],
  change: Step,
  latest: Step | undefined,
  nail: CatalogueNail | undefined,
): number {
  if (change.kind === "step") {
    return latest === undefined ? steps.length : steps.indexOf(latest) + 1;
  }
  if (change.kind === "check") {
    return steps.length;
  }
  const before = (step: Step): boolean => {
    if (step.kind === "check" || step.kind === "step") {
      return false;
    }
    return rankIn(step, nail) <= rankIn(change, nail);
  };
  const last = steps.findLastIndex(before);
  return last < 0 ? firstPlace(steps, change, nail) : last + 1;
}

function firstPlace(steps: readonly Step[], change: Step, nail: CatalogueNail | undefined): number {
  const next = steps.findIndex(
    (step) => step.kind !== "check" && step.kind !== "step" && rankIn(step, nail) > rankIn(change, nail),
  );
  return next < 0 ? steps.length : next;
}

/** The kinds in the order they are soundly done; blocking screws steer the wire and the reamers, so they come before them. */
const order: readonly Step["kind"][] = [
  "prepare",
  "position",
  "reduce",
  "enter",
  "wire",
  "block",
  "ream",
  "nail",
  "lock",
  "backslap",
  "compress",
  "cap",
  "check",
  "step",
];

function rank(step: Step): number {
  return order.indexOf(step.kind === "unreamed" ? "ream" : step.kind);
}

/** A fixed screw at the driving end goes in after backslap and compression, every other screw before them. */
function rankIn(step: Step, nail: CatalogueNail | undefined): number {
  const own = rank(step);
  return step.kind === "lock" && holdsDrivingEnd(step, nail) ? rankOfLateLock : own;
}

const rankOfLateLock = order.indexOf("compress") + 0.5;

function holdsDrivingEnd(step: LockStep, nail: CatalogueNail | undefined): boolean {
  const hole: CatalogueHole | undefined = nail?.holes.find((candidate) => candidate.name.text === step.hole.text);
  return hole?.end === "top" && hole.slot === undefined;
}
