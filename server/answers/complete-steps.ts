/** The removal a plan does not have yet, written from its operation: what was put in comes out, in the order that works. */
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import { insertAfter, lineBreak } from "../findings/line-edits.ts";
import { placedLocks } from "../findings/removal-steps.ts";
import { holeNamed, stepsOf } from "../reckoning/given.ts";
import { analysedWith } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import { pathTo } from "./statements.ts";
import { differences } from "./what-if.ts";

export interface CompletedSteps {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** Offered at the plan's head and at its last block; empty when a removal stands there, or nothing was put in. */
export function completedSteps(analysis: Analysis, span: Span): readonly CompletedSteps[] {
  const { document } = analysis.meaning;
  if (document?.kind !== "plan" || document.removal !== undefined || document.file !== analysis.file) return [];
  const blocks = document.statement.block?.statements.filter(({ block }) => block?.close !== undefined) ?? [];
  const last = blocks.findLast(({ word }) => word.name === "aftercare" || word.name === "operation");
  const path = pathTo(analysis, span.start);
  const inner = path[1]?.statement ?? path[0]?.statement;
  if (last === undefined || (inner !== last && inner !== document.statement)) return [];
  const locks = placedLocks(document);
  if (locks.length === 0) return [];
  const named = (end: "top" | "tip"): string[] =>
    locks.filter(({ hole }) => holeNamed(document, hole.text)?.end === end).map(({ hole }) => hole.text);
  const [far, near] = [named("tip"), named("top")];
  const steps = [
    ...(stepsOf(document, "cap").some((cap) => !cap.none) ? ["take cap"] : []),
    "attach extractor",
    ...(far.length === 0 ? [] : [`take ${far.join(", ")}`]),
    ...(near.length === 0 ? [] : [`take ${near.join(", ")}`]),
    "withdraw nail",
  ];
  // A place inside the block's own line keeps the indent of the block.
  const block = ["removal {", ...steps.map((step) => `    ${step}`), "  }"].join(lineBreak(analysis.text));
  const edits = [insertAfter(analysis.text, last.span, block)];
  const { come } = differences(analysis, analysedWith(analysis, edits));
  return come.length > 0 ? [] : [{ title: `Write the removal: ${steps.join("; ")}`, edits }];
}
