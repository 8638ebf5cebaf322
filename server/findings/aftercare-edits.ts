/**
 * Puts a line into the after-care of a plan that has such a block. A plan without one gets no edit: where the block belongs is the
 * writer's choice.
 */
import type { Plan } from "../meaning/plan.ts";
import type { Fix, FixClass } from "./finding.ts";
import { insertAfter } from "./line-edits.ts";

export function inAftercare(
  plan: Plan,
  text: string,
  line: string,
  fixClass: FixClass = "changes a decision",
): readonly Fix[] {
  const block = plan.statement.block?.statements.find((statement) => statement.word.name === "aftercare")?.block;
  const last = block?.statements.at(-1);
  if (last === undefined) return [];
  return [{ title: `put in \`${line}\``, class: fixClass, edits: [insertAfter(text, last.span, line)] }];
}
