/**
 * Steps a plan does not have yet: those its operation needs before or after the ones that are there, and the removal, in which what was
 * put in comes out in the order that works.
 */
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import { insertAfter, lineBreak } from "../findings/line-edits.ts";
import { placedLocks } from "../findings/removal-steps.ts";
import { holeNamed, stepsOf } from "../reckoning/given.ts";
import { analysedWith } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import { fixesIn } from "./fixes.ts";
import { differences } from "./formatting.ts";
import { pathTo, statementsOf } from "./statements.ts";
import { differences as meaningDifferences } from "./what-if.ts";

export interface CompletedSteps {
  readonly title: string;
  readonly edits: readonly Edit[];
}

/** The operation's at its head and the plan's, the removal at the plan's head and its last block. */
export function completedSteps(analysis: Analysis, span: Span): readonly CompletedSteps[] {
  return [...completedOperation(analysis, span), ...writtenRemoval(analysis, span)];
}

/** Each missing step is put in as the finding about it would; more steps than this miss in no plan. */
const mostSteps = 20;

function completedOperation(analysis: Analysis, span: Span): readonly CompletedSteps[] {
  const { document } = analysis.meaning;
  if (document?.kind !== "plan" || document.file !== analysis.file) return [];
  const path = pathTo(analysis, span.start);
  const inner = (path[1] ?? path[0])?.statement;
  if (path.length > 2 || (inner?.word.name !== "operation" && inner !== document.statement)) return [];
  const lines: string[] = [];
  let now = analysis;
  for (let next = missingStep(now); next !== undefined && lines.length < mostSteps; next = missingStep(now)) {
    const after = analysedWith(now, next.edits);
    // A step that mends nothing would be put in again and again.
    if (after.judgement.findings.length >= now.judgement.findings.length) break;
    lines.push(...next.edits.map(({ text }) => text.trim()));
    now = after;
  }
  if (lines.length === 0) return [];
  return [{ title: `Complete the steps: ${lines.join("; ")}`, edits: differences(analysis.text, now.text) }];
}

/** The first fix in the operation that puts a step in and leaves all others as they are. */
function missingStep(analysis: Analysis): { readonly edits: readonly Edit[] } | undefined {
  const operation = [...statementsOf(analysis.meaning.shaped.statements)].find(
    ({ statement }) => statement.word.name === "operation",
  );
  if (operation === undefined) return undefined;
  const { span } = operation.statement;
  const isWithin = (edit: Edit): boolean => edit.span.start > span.start && edit.span.end < span.end;
  return fixesIn(analysis, span).find(
    ({ edits, finding, class: fixClass }) =>
      finding.waived === undefined &&
      fixClass !== "needs a choice" &&
      edits.every((edit) => edit.span.start === edit.span.end && /^\s*\S.*\s*$/.test(edit.text) && isWithin(edit)),
  );
}

/** Empty when a removal stands there, or nothing was put in. */
function writtenRemoval(analysis: Analysis, span: Span): readonly CompletedSteps[] {
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
  const { come } = meaningDifferences(analysis, analysedWith(analysis, edits));
  return come.length > 0 ? [] : [{ title: `Write the removal: ${steps.join("; ")}`, edits }];
}
