/**
 * Whether steps stand where their lines can be moved, so that moving them changes nothing but the order. What must come first is in
 * the table of `order.ts`.
 */
import type { Plan, Step } from "../meaning/plan.ts";

/** True when all of them stand in the plan's own operation, so that moving their lines changes nothing but the order. */
export function movable(plan: Plan, steps: readonly Step[]): boolean {
  const operation = plan.statement.block?.statements.find((statement) => statement.word.name === "operation");
  if (operation === undefined) return false;
  const { start, end } = operation.span;
  return steps.every(({ place }) => place.span.start >= start && place.span.end <= end);
}
