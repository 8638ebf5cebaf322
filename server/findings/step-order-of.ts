/**
 * Which step comes before which in a plan as it is done, and whether steps stand where their lines can be moved. What must come first
 * is for the rules to say.
 */
import type { CheckStep, LockStep, Plan, Step } from "../meaning/plan.ts";
import { stepsOf } from "../reckoning/given.ts";
import { fixedBeforeCompression } from "./driving-end.ts";

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
  return steps.every(({ place }) => place.span.start >= start && place.span.end <= end);
}

/**
 * The screw that locking begins with after the nail. A fixed screw that goes in before the compression is passed over: its place has
 * a finding of its own.
 */
export function firstLock(plan: Plan): LockStep | undefined {
  const [nail] = stepsOf(plan, "nail");
  if (nail === undefined) return undefined;
  const locks = stepsOf(plan, "lock").filter((lock) => isBefore(plan, nail, lock));
  const early = new Set(fixedBeforeCompression(plan));
  return locks.find((lock) => !early.has(lock)) ?? locks[0];
}

/** The checks between the nail and the first locking screw; empty when nail or screws are missing. */
export function checksBeforeLocking(plan: Plan): readonly CheckStep[] {
  const nail = plan.steps.findIndex((step) => step.kind === "nail");
  const lock = firstLock(plan);
  if (lock === undefined) return [];
  return plan.steps.slice(nail, plan.steps.indexOf(lock)).filter((step) => step.kind === "check");
}
