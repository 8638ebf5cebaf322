/**
 * Which step comes before which in a plan as it is done, and whether steps stand where their lines can be moved. What must come first
 * is for the rules to say.
 */
import type { CheckStep, Plan, Step } from "../meaning/plan.ts";

/** True when `step` is done before `other`. */
export function isBefore(plan: Plan, step: Step, other: Step): boolean {
  return plan.steps.indexOf(step) < plan.steps.indexOf(other);
}

/** The steps done after `step`. */
export function stepsAfter(plan: Plan, step: Step): readonly Step[] {
  return plan.steps.slice(plan.steps.indexOf(step) + 1);
}

/** True when all of them stand in the plan's own operation, so that moving their lines changes nothing but the order. */
export function movable(plan: Plan, steps: readonly Step[]): boolean {
  const operation = plan.statement.block?.statements.find((statement) => statement.word.name === "operation");
  if (operation === undefined) return false;
  const { start, end } = operation.span;
  return steps.every(({ place }) => place.file === plan.file && place.span.start >= start && place.span.end <= end);
}

/** The checks between the nail and the first locking screw; empty when the nail or the screws are missing or the wrong way round. */
export function checksBeforeLocking(plan: Plan): readonly CheckStep[] {
  const nail = plan.steps.findIndex((step) => step.kind === "nail");
  const lock = plan.steps.findIndex((step) => step.kind === "lock");
  if (nail < 0 || lock < nail) return [];
  return plan.steps.slice(nail, lock).filter((step) => step.kind === "check");
}
