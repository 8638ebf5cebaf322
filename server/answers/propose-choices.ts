/**
 * What there is to choose from: the nails that go with bone and fracture, how deep each goes in and with which cap, the lengths that
 * may fit, and the lists of heads that keep the limits. What has to be left out is left out with its reason; nothing is ranked here.
 */
import { capThatFits } from "../findings/caps.ts";
import type { Finding, Subject } from "../findings/finding.ts";
import { headsOf, listedHeads } from "../findings/head-list.ts";
import { judgeAtLeast, judgeAtMost } from "../findings/judging.ts";
import type { LimitName } from "../findings/limits.ts";
import { isLength, isListed, lengthsOf } from "../findings/listed-sizes.ts";
import type { CatalogueNail } from "../meaning/plan.ts";
import { add, compare, constant, subtract } from "../quantity/arithmetic.ts";
import { roundUp } from "../quantity/elementary.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { type Candidate, type Frame, isUnreamed, judged, lay } from "./propose-trial.ts";

/** One nail of a catalogue with all that may be chosen for it. */
export interface Choice {
  readonly nail: CatalogueNail;
  readonly sunk: Known;
  readonly cap: Candidate["cap"];
  readonly isthmus: Known;
  /** Length there is room for when the nail is sunk that far. */
  readonly available: Known;
  readonly diameters: readonly Known[];
  /** Listed lengths, longest first, that fit with at least 95 %. */
  readonly sure: readonly Known[];
  /** Listed lengths that can neither be trusted to fit nor be excluded, longest first. */
  readonly doubtful: readonly Known[];
}

/** Why a nail, or a size of it, is left out: in the words of the finding where there is one. */
export interface LeftOut {
  readonly what: string;
  readonly because: string;
  readonly finding?: Finding;
}

const flush = constant(0, "mm");
const millimetre = constant(1, "mm");

/** Each nail of the catalogues once, with what may be chosen for it or why it is left out. */
export function choicesOf(frame: Frame): { readonly choices: readonly Choice[]; readonly leftOut: readonly LeftOut[] } {
  const named = new Map<string, CatalogueNail>();
  for (const nail of frame.plan.uses.flatMap(({ document }) => document?.nails ?? [])) {
    if (!named.has(nail.name.text)) named.set(nail.name.text, nail);
  }
  const settled = [...named.values()].map((nail) => choiceOf(frame, nail));
  return {
    choices: settled.flatMap((each) => ("because" in each ? [] : [each])),
    leftOut: settled.flatMap((each) => ("because" in each ? [each] : [])),
  };
}

function choiceOf(frame: Frame, nail: CatalogueNail): Choice | LeftOut {
  const leftOut = (because: string): LeftOut => ({ what: `nail ${nail.name.text}`, because });
  const [diameters, lengths] = [lengthsOf(nail.diameters), lengthsOf(nail.lengths)];
  const [diameter, length] = [diameters[0], lengths[0]];
  if (diameter === undefined || length === undefined) {
    return leftOut(`the catalogue lists no ${diameter === undefined ? "diameters" : "lengths"} of it`);
  }
  const tried = { nail, diameter, length, heads: [] };
  const depth = depthOf(frame, tried);
  if ("because" in depth) return leftOut(depth.because);
  const trial = lay(frame, { ...tried, ...depth });
  const unfit = judged(frame, trial).findings.find(({ slug, waived }) => slug === "nail-unfit" && waived === undefined);
  if (unfit !== undefined) return { ...leftOut(unfit.message), finding: unfit };
  const available = answerOf(trial.reckonings, "length.available");
  const isthmus = answerOf(trial.reckonings, "canal.isthmus");
  if (available.kind === "unknown") return leftOut(available.because);
  if (isthmus.kind === "unknown") return leftOut(isthmus.because);
  return { nail, ...depth, isthmus, available, diameters, ...fittingOf(lengths, available) };
}

function fittingOf(lengths: readonly Known[], available: Known): Pick<Choice, "sure" | "doubtful"> {
  const told = lengths.toReversed().map((length) => ({ length, beyond: judgeAtMost(length, available, "warning") }));
  return {
    sure: told.filter(({ beyond }) => beyond === undefined).map(({ length }) => length),
    doubtful: told.filter(({ beyond }) => beyond?.kind === "beyond" && !beyond.sure).map(({ length }) => length),
  };
}

type Depth = Pick<Candidate, "sunk" | "cap">;

/** The plan's own depth with the longest cap that stays in the bone; else the plan's own cap, or the shortest, with its depth. */
function depthOf(frame: Frame, tried: Omit<Candidate, "sunk" | "cap">): Depth | { readonly because: string } {
  const given = nailStepOf(frame.plan)?.sunk?.quantity;
  const capStep = stepsOf(frame.plan, "cap")[0];
  const caps = lengthsOf(tried.nail.caps);
  const kept = capStep?.none === true || caps.length === 0;
  const trial = lay(frame, { ...tried, sunk: isLength(given) ? given : flush, cap: "kept" });
  if (isLength(given)) {
    if (kept) return { sunk: given, cap: "kept" };
    const after = answerOf(trial.reckonings, "nail.topAfter");
    if (after.kind === "unknown") return after;
    const subject: Subject = { ...trial, text: frame.analysis.text, limits: frame.limits };
    return { sunk: given, cap: capThatFits(subject)?.extension ?? "none" };
  }
  const typed = capStep?.extension?.quantity;
  const wanted = isLength(typed) && (kept || isListed(caps, typed)) ? typed : kept ? flush : (caps[0] ?? flush);
  const sunk = leastDepth(add(answerOf(trial.reckonings, "overinsertion.needed"), wanted));
  return "because" in sunk ? sunk : { sunk, cap: kept ? "kept" : wanted };
}

/** The least whole millimetre that covers what is needed, with its uncertainty as everywhere judged. */
function leastDepth(needed: Quantity): Known | { readonly because: string } {
  let sunk = roundUp(needed, millimetre);
  for (let more = 0; more <= deepest; more += 1) {
    if (sunk.kind === "unknown") return sunk;
    const left = subtract(sunk, needed);
    if (judgeAtLeast(left, flush, "error") === undefined) return sunk;
    sunk = add(sunk, millimetre);
  }
  return { because: "how far the nail is drawn back is not known well enough to say how deep it must go" };
}

/** Deeper than this below its own need no depth is looked for. */
const deepest = 50;

/** The reaming lists for one diameter, each to another last head; empty with the list that comes nearest when none keeps the limits. */
export interface HeadLists {
  readonly lists: readonly (readonly Known[])[];
  readonly nearest: readonly Known[];
  /** Why no list could be looked for at all. */
  readonly because?: string;
}

/**
 * Lists of listed heads that keep the limits of over-reaming, of the first head over the isthmus and of the step between heads. They
 * begin with the plan's own first head, else with the largest front-cutting one, else with the largest; and grow by as much as the
 * limit lets them. Unreamed: one list without a head.
 */
export function headListsFor(frame: Frame, isthmus: Known, diameter: Known): HeadLists {
  if (isUnreamed(frame)) return { lists: [[]], nearest: [] };
  const listed = listedHeads(frame.plan);
  const because = whyNoHeads(frame, listed);
  if (because !== undefined) return { lists: [], nearest: [], because };
  const ends = listed.filter(
    (head) => keeps(frame, "reaming-over-nail", subtract(head, diameter)) && !isBelow(head, diameter),
  );
  const firsts = firstHeads(frame, listed);
  const lists = ends.flatMap((last) => {
    for (const first of beginnings(frame, firsts, isthmus, last)) {
      const list = steppedList(frame, listed, first, last);
      if (list !== undefined) return [list];
    }
    return [];
  });
  return { lists, nearest: lists.length > 0 ? [] : nearestList(frame, listed, isthmus, diameter) };
}

function whyNoHeads(frame: Frame, listed: readonly Known[]): string | undefined {
  const names: readonly LimitName[] = ["reaming-over-nail", "reaming-start-over-isthmus", "reaming-step"];
  const unreadable = names.map((name) => frame.limits.get(name).unreadable).find((fault) => fault !== undefined);
  return unreadable ?? (listed.length === 0 ? "no catalogue that was read lists reamer heads" : undefined);
}

function keeps({ limits }: Frame, name: LimitName, value: Quantity): boolean {
  const { least, most } = limits.get(name);
  return judgeAtMost(value, most, "warning") === undefined && judgeAtLeast(value, least, "warning") === undefined;
}

function isBelow(head: Known, diameter: Known): boolean {
  return compare(head, diameter) < 0;
}

/** Heads to begin with, the ones to be preferred first. */
function firstHeads({ plan }: Frame, listed: readonly Known[]): readonly Known[] {
  const own = stepsOf(plan, "ream").flatMap((ream) => headsOf(ream)?.slice(0, 1) ?? []);
  const frontCutting = lengthsOf(...plan.reamers.map((reamers) => reamers.frontCutting)).toReversed();
  return [...own, ...frontCutting, ...listed.toReversed()].filter((head) => isListed(listed, head));
}

/** Those of them that surely keep the limit; else the smallest, when it cannot be said to break it. */
function beginnings(frame: Frame, firsts: readonly Known[], isthmus: Known, last: Known): readonly Known[] {
  const reachable = firsts.filter((head) => compare(head, last) <= 0);
  const sure = reachable.filter((head) => keeps(frame, "reaming-start-over-isthmus", subtract(head, isthmus)));
  if (sure.length > 0) return sure;
  const smallest = reachable.toSorted(compare)[0];
  const { most } = frame.limits.get("reaming-start-over-isthmus");
  const beyond = smallest === undefined ? undefined : judgeAtMost(subtract(smallest, isthmus), most, "warning");
  return smallest !== undefined && beyond?.kind === "beyond" && !beyond.sure ? [smallest] : [];
}

/** From head to head as far as the step's limit goes; undefined when the listed heads leave too wide a step. */
function steppedList(frame: Frame, listed: readonly Known[], first: Known, last: Known): readonly Known[] | undefined {
  const list = [first];
  let head = first;
  while (compare(head, last) < 0) {
    const from = head;
    const next = listed.findLast(
      (each) =>
        compare(each, from) > 0 && compare(each, last) <= 0 && keeps(frame, "reaming-step", subtract(each, from)),
    );
    if (next === undefined) return undefined;
    list.push(next);
    head = next;
  }
  return list;
}

/** What comes nearest to a list that keeps the limits, so that a finding can say what is wrong with it. */
function nearestList(frame: Frame, listed: readonly Known[], isthmus: Known, diameter: Known): readonly Known[] {
  const { least } = frame.limits.get("reaming-over-nail");
  const wanted = least === undefined ? diameter : add(diameter, least);
  const last = listed.find((head) => isLength(wanted) && compare(head, wanted) >= 0) ?? listed.at(-1);
  if (last === undefined) return [];
  const first = beginnings(frame, firstHeads(frame, listed), isthmus, last)[0] ?? listed[0] ?? last;
  return listed.filter((head) => compare(head, first) >= 0 && compare(head, last) <= 0);
}

/** "10 mm × 345 mm": how a size is called. */
export function sizeText({ diameter, length }: Pick<Candidate, "diameter" | "length">): string {
  return `${printValue(diameter, "mm")} × ${printValue(length, "mm")}`;
}
