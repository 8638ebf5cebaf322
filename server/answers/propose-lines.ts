/**
 * The statements of a proposal as they would be typed, in canonical layout: what a person pastes and what an edit puts in. Parts of a
 * statement that the proposal keeps stay as the writer has them.
 */
import { layout } from "../../grammar/layout.ts";
import { parse } from "../../grammar/parse.ts";
import { written } from "../findings/head-list.ts";
import type { LockStep, NailStep, Step, Typed } from "../meaning/plan.ts";
import { compare } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { locksOf, nailStepOf } from "../reckoning/given.ts";
import type { Frame, Trial } from "./propose-trial.ts";

/** The statements of a proposal in the order they are done, as they stand in an operation. */
export function proposedLines(frame: Frame, trial: Trial): readonly string[] {
  const lines = trial.plan.steps.flatMap((step) =>
    isProposed(frame, trial, step) ? [lineOf(frame, trial, step)] : [],
  );
  return laidOut(lines);
}

/** Kinds of steps a proposal may put in where there is none. */
const kinds: readonly Step["kind"][] = ["wire", "ream", "nail", "cap"];

/** Whether the proposal puts this step in where the plan has none. */
export function isPutIn({ plan }: Frame, step: Step): boolean {
  return kinds.includes(step.kind) && plan.steps.every(({ kind }) => kind !== step.kind);
}

function isProposed(frame: Frame, { screws }: Trial, step: Step): boolean {
  if (step.kind === "lock") return screws.some(({ hole }) => hole === step.hole.text);
  return step.kind === "unreamed" || (step.kind === "wire" ? isPutIn(frame, step) : kinds.includes(step.kind));
}

/** One step of a laid plan as it is typed. */
export function lineOf(frame: Frame, trial: Trial, step: Step): string {
  switch (step.kind) {
    case "wire":
      return "wire ball-tip";
    case "ream":
      return `ream ${written(trial.candidate.heads)}`;
    case "nail":
      return nailLine(frame, step);
    case "lock":
      return lockLine(frame, step);
    case "cap":
      return step.none ? "cap none" : `cap ${sizeOf(step.extension?.quantity)}`;
    default:
      return step.kind;
  }
}

function nailLine(frame: Frame, { name, diameter, length, sunk }: NailStep): string {
  const own = nailStepOf(frame.plan);
  const parts = [
    `diameter ${keptOr(frame, own?.diameter, diameter)}`,
    `length ${keptOr(frame, own?.length, length)}`,
    `sunk ${keptOr(frame, own?.sunk, sunk)}`,
  ];
  return `nail ${name?.text ?? ""}, ${parts.join(", ")}`;
}

function lockLine(frame: Frame, step: LockStep): string {
  const own = locksOf(frame.plan).find(({ hole }) => hole.text === step.hole.text);
  const family = step.family === undefined ? "" : `${step.family.text} `;
  const grip = step.grip === "near" ? ", grip near" : "";
  const screw = keptOr(frame, own?.screw, step.screw);
  return `lock ${step.hole.text}, drilled ${keptOr(frame, own?.drilled, step.drilled)}, screw ${family}${screw}${grip}`;
}

/** As the writer typed it where the value is the same. */
function keptOr({ analysis }: Frame, own: Typed | undefined, now: Typed | undefined): string {
  if (own === undefined || own.place.file !== analysis.file || !isSame(own.quantity, now?.quantity)) {
    return sizeOf(now?.quantity);
  }
  return analysis.text.slice(own.place.span.start, own.place.span.end);
}

/** Whether both are the same size; an unknown one is the same as none. */
export function isSame(a: Quantity | undefined, b: Quantity | undefined): boolean {
  return a?.kind === "known" && b?.kind === "known" && compare(a, b) === 0;
}

/** A size as it is typed; what is uncertain keeps its ±. */
function sizeOf(quantity: Quantity | undefined): string {
  if (quantity?.kind !== "known") return "";
  return quantity.influences.length === 0 ? printValue(quantity, "mm") : print(quantity, "mm");
}

/** The lines as the formatter lays them out in an operation; as they are when it cannot. */
function laidOut(lines: readonly string[]): readonly string[] {
  const text = `plan "" {\n  operation {\n${lines.join("\n")}\n  }\n}\n`;
  const rows = layout(parse(text))?.split("\n") ?? [];
  const from = rows.indexOf("  operation {");
  const to = rows.indexOf("  }", from);
  return from < 0 || to < 0 ? lines.map((line) => `    ${line}`) : rows.slice(from + 1, to);
}
