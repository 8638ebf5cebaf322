/**
 * A proposal as edits of the plan's text: the least that turns reaming, nail, cap and screws into the proposed ones, with a title that
 * says what changes. What is proposed is in `propose.ts`.
 */
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import { headsOf, rewriteHeads, written } from "../findings/head-list.ts";
import { insertAfter, insertBefore, takeOut } from "../findings/line-edits.ts";
import type { CapStep, LockStep, NailStep, Place, ReamStep, Step, Typed } from "../meaning/plan.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { locksOf, nailStepOf, stepsOf } from "../reckoning/given.ts";
import type { Analysis } from "./analyse.ts";
import { lengthMargin, type Proposal, propose } from "./propose.ts";
import { sizeText } from "./propose-choices.ts";
import { isPutIn, isSame, lineOf } from "./propose-lines.ts";
import { chanceText } from "./propose-search.ts";
import { type Frame, type Trial, takesCapToo } from "./propose-trial.ts";
import { touches } from "./statements.ts";

/** A proposal ready to be applied. */
export interface ProposedChange {
  /** "Propose from the measures: nail 10 mm × 330 mm → 9 mm × 345 mm, last head 11 mm → 10 mm (…)". */
  readonly title: string;
  /** In the order of the text; none overlaps another. */
  readonly edits: readonly Edit[];
}

/** The proposals that change something, the best first; empty when there is none. */
export function proposedChanges(analysis: Analysis): readonly ProposedChange[] {
  const { frame, proposals } = propose(analysis);
  if (frame === undefined) return [];
  return proposals.flatMap((proposal) => {
    const edits = editsFor(frame, proposal);
    return edits === undefined || edits.length === 0 ? [] : [{ title: titleOf(frame, proposal), edits }];
  });
}

/** True when the span touches a line that a proposal writes anew. */
export function touchesProposed({ file, meaning }: Analysis, span: Span): boolean {
  const { document } = meaning;
  if (document?.kind !== "plan") return false;
  return document.steps.some(
    ({ kind, place }) => writtenAnew.includes(kind) && place.file === file && touches(place.span, span),
  );
}

const writtenAnew: readonly Step["kind"][] = ["ream", "unreamed", "nail", "cap"];

/** The edits that write the proposal into the plan; undefined when the operation has no step to put one beside. */
export function editsFor(frame: Frame, trial: Trial): readonly Edit[] | undefined {
  const putIn = linesPutIn(frame, trial);
  if (putIn === undefined) return undefined;
  const { plan } = frame;
  const nail = nailStepOf(plan);
  const [ream] = stepsOf(plan, "ream");
  const [cap] = stepsOf(plan, "cap");
  const edits = [
    ...repeats(frame),
    ...(ream === undefined ? [] : reamEdits(frame, trial, ream)),
    ...(nail === undefined ? [] : nailEdits(frame, trial, nail)),
    ...locksOf(trial.plan).flatMap((lock) => lockEdits(frame, trial, lock)),
    ...(cap === undefined ? [] : capEdits(frame, trial, cap)),
    ...putIn,
    ...takenOutAgain(frame, trial),
  ];
  return joined(edits);
}

/** Second reamings and caps, which the proposal's one would contradict. */
function repeats({ analysis, plan }: Frame): readonly Edit[] {
  const { document } = analysis.meaning;
  if (document?.kind !== "plan") return [];
  const kept = new Set(plan.steps);
  return document.steps.filter((step) => !kept.has(step)).map(({ place }) => takeOut(analysis.text, place.span));
}

function reamEdits(frame: Frame, trial: Trial, ream: ReamStep): readonly Edit[] {
  const { heads } = trial.candidate;
  const old = headsOf(ream) ?? [];
  if (heads.length === 0) return [];
  if (isFaulty(frame, ream.place)) return [whole(frame, trial, ream)];
  const same = old.length === heads.length && heads.every((head, at) => isSame(head, old[at]));
  return same ? [] : rewriteHeads(frame.plan, ream, heads);
}

function nailEdits(frame: Frame, trial: Trial, own: NailStep): readonly Edit[] {
  const { nail, diameter, length, sunk } = trial.candidate;
  if (own.name === undefined || isFaulty(frame, own.place)) return [whole(frame, trial, own)];
  const name = own.name.text === nail.name.text ? [] : [{ span: own.name.place.span, text: nail.name.text }];
  const sizes: readonly (readonly [Typed | undefined, Known])[] = [
    [own.diameter, diameter],
    [own.length, length],
    [own.sunk, sunk],
  ];
  if (sizes.some(([typed]) => typed === undefined)) return [whole(frame, trial, own)];
  return [...name, ...sizes.flatMap(([typed, size]) => sizeEdits(typed, size))];
}

function sizeEdits(typed: Typed | undefined, size: Known): readonly Edit[] {
  if (typed === undefined || isSame(typed.quantity, size)) return [];
  return [{ span: typed.place.span, text: printValue(size, "mm") }];
}

function lockEdits(frame: Frame, trial: Trial, lock: LockStep): readonly Edit[] {
  const chosen = trial.screws.find(({ hole }) => hole === lock.hole.text);
  const own = locksOf(frame.plan).find(({ hole }) => hole.text === lock.hole.text);
  if (chosen === undefined || own === undefined) return [];
  if (own.drilled === undefined) return [whole(frame, trial, lock)];
  if (own.screw !== undefined) return sizeEdits(own.screw, chosen.screw);
  return own.family === undefined
    ? [addedTo(own, `, screw ${printValue(chosen.screw, "mm")}`)]
    : [whole(frame, trial, lock)];
}

function addedTo({ place }: LockStep, text: string): Edit {
  return { span: { start: place.span.end, end: place.span.end }, text };
}

function capEdits(frame: Frame, trial: Trial, own: CapStep): readonly Edit[] {
  const { cap } = trial.candidate;
  if (cap === "kept" || (cap === "none" && own.none)) return [];
  if (cap === "none" || own.extension === undefined || isFaulty(frame, own.place)) {
    const now = stepsOf(trial.plan, "cap")[0];
    return now === undefined ? [] : [{ span: own.place.span, text: lineOf(frame, trial, now) }];
  }
  return sizeEdits(own.extension, cap);
}

/** The whole statement written anew. */
function whole(frame: Frame, trial: Trial, own: Step): Edit {
  const isOwn = (step: Step): boolean =>
    own.kind === "lock" ? step.kind === "lock" && step.hole.text === own.hole.text : step.kind === own.kind;
  const now = trial.plan.steps.find(isOwn) ?? own;
  return { span: own.place.span, text: lineOf(frame, trial, now) };
}

/** True when a part of the line could not be read: then the line is written anew as a whole. */
function isFaulty({ analysis }: Frame, { span }: Place): boolean {
  return [...analysis.parsed.problems, ...analysis.meaning.problems].some(
    (problem) => span.start <= problem.span.start && problem.span.end <= span.end,
  );
}

/** New statements, each behind the step it follows, or before the one that follows it; undefined when there is none. */
function linesPutIn(frame: Frame, trial: Trial): readonly Edit[] | undefined {
  const { text } = frame.analysis;
  const { steps } = trial.plan;
  const isOld = (step: Step): boolean => !isPutIn(frame, step);
  const edits: Edit[] = [];
  for (const [at, step] of steps.entries()) {
    if (isOld(step)) continue;
    const before = steps.slice(0, at).findLast(isOld);
    const after = steps.slice(at).find(isOld);
    const line = lineOf(frame, trial, step);
    if (before !== undefined) edits.push(insertAfter(text, before.place.span, line));
    else if (after !== undefined) edits.push(insertBefore(text, after.place.span, line));
    else return undefined;
  }
  return edits;
}

function takenOutAgain({ analysis, plan }: Frame, trial: Trial): readonly Edit[] {
  const [first] = plan.removal?.steps ?? [];
  if (first === undefined || !takesCapToo(plan, trial.plan)) return [];
  return [insertBefore(analysis.text, first.place.span, "take cap")];
}

/** In the order of the text; what goes in at one place goes in as one. */
function joined(edits: readonly Edit[]): readonly Edit[] {
  const result: Edit[] = [];
  for (const edit of edits.toSorted((a, b) => a.span.start - b.span.start || a.span.end - b.span.end)) {
    const last = result.at(-1);
    const isSamePlace = last !== undefined && last.span.start === edit.span.start && last.span.end === edit.span.end;
    if (isSamePlace) result[result.length - 1] = { span: last.span, text: last.text + edit.text };
    else result.push(edit);
  }
  return result;
}

function titleOf(frame: Frame, proposal: Proposal): string {
  const changes = [
    ...nailWords(frame, proposal),
    ...reamWords(frame, proposal),
    ...capWords(frame, proposal),
    ...screwWords(frame, proposal),
  ];
  const shown = changes.length > mostWords ? [...changes.slice(0, mostWords), "…"] : changes;
  const fits = `margin ${print(lengthMargin(proposal), "mm")}, fits with ${chanceText(proposal)}`;
  return `Propose from the measures: ${shown.join(", ")} (${fits})`;
}

/** A menu shows one line. */
const mostWords = 6;

function nailWords({ plan }: Frame, { candidate }: Proposal): readonly string[] {
  const own = nailStepOf(plan);
  const { nail, diameter, length, sunk } = candidate;
  const size = sizeText(candidate);
  const depth = printValue(sunk, "mm");
  if (own === undefined) return [`nail ${nail.name.text} ${size}, sunk ${depth}`];
  const name =
    own.name === undefined || own.name.text === nail.name.text ? "" : `${own.name.text} → ${nail.name.text} `;
  const same = isSame(own.diameter?.quantity, diameter) && isSame(own.length?.quantity, length);
  const sizes = same ? "" : `${sizeIn(own.diameter)} × ${sizeIn(own.length)} → ${size}`;
  const words = `nail ${name}${sizes}`.trim();
  return [
    ...(words === "nail" ? [] : [words]),
    ...(isSame(own.sunk?.quantity, sunk) ? [] : [`sunk ${sizeIn(own.sunk)} → ${depth}`]),
  ];
}

function sizeIn(typed: Typed | undefined): string {
  return typed === undefined ? "none" : printValue(typed.quantity, "mm");
}

function reamWords({ plan }: Frame, { candidate: { heads } }: Proposal): readonly string[] {
  const last = heads.at(-1);
  if (last === undefined) return [];
  const [ream] = stepsOf(plan, "ream");
  if (ream === undefined) return [`ream ${written(heads)}`];
  const old = headsOf(ream) ?? [];
  if (!isSame(old.at(-1), last)) return [`last head ${sizeIn(ream.heads.sizes.at(-1))} → ${printValue(last, "mm")}`];
  const same = old.length === heads.length && heads.every((head, at) => isSame(head, old[at]));
  return same ? [] : [`heads ${written(heads)}`];
}

function capWords({ plan }: Frame, { candidate: { cap } }: Proposal): readonly string[] {
  const [own] = stepsOf(plan, "cap");
  if (cap === "kept" || (cap === "none" && (own === undefined || own.none))) return [];
  const now = cap === "none" ? cap : printValue(cap, "mm");
  if (own === undefined) return [`cap ${now}`];
  return cap !== "none" && isSame(own.extension?.quantity, cap) ? [] : [`cap ${sizeIn(own.extension)} → ${now}`];
}

function screwWords({ plan }: Frame, { screws }: Proposal): readonly string[] {
  return screws.flatMap(({ hole, screw }) => {
    const own = locksOf(plan).find((lock) => lock.hole.text === hole);
    if (isSame(own?.screw?.quantity, screw)) return [];
    const now = printValue(screw, "mm");
    return [own?.screw === undefined ? `screw ${hole} ${now}` : `screw ${hole} ${sizeIn(own.screw)} → ${now}`];
  });
}
