/**
 * One choice of nail, reaming, depth, cap and screws laid over a plan, reckoned and judged like any other plan. Which choices there
 * are is in `propose-choices.ts`, which of them is best in `propose-search.ts`; nothing is formulated here.
 */
import type { Parsed } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import { rules } from "../findings/all.ts";
import type { Finding, Judgement, Subject } from "../findings/finding.ts";
import { judge } from "../findings/judge.ts";
import { type Limits, limitsOf } from "../findings/limits.ts";
import { isLength } from "../findings/listed-sizes.ts";
import { taking } from "../findings/removal-steps.ts";
import { attempt } from "../findings/running.ts";
import { overlay } from "../meaning/overlay.ts";
import type {
  CapStep,
  CatalogueNail,
  LockStep,
  NailStep,
  Place,
  Plan,
  ReamStep,
  Said,
  Step,
  Typed,
} from "../meaning/plan.ts";
import type { Meaning } from "../meaning/understand.ts";
import { constant } from "../quantity/arithmetic.ts";
import { roundUp } from "../quantity/elementary.ts";
import type { Known } from "../quantity/quantity.ts";
import { locksOf, nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf, reckon } from "../reckoning/reckon.ts";
import type { Reckonings } from "../reckoning/reckoning.ts";
import type { Analysis } from "./analyse.ts";

/** The plan a proposal is laid over, with what the proposal writes anew taken out of its problems. */
export interface Frame {
  readonly analysis: Analysis;
  /** Steps that would stand beside the proposal's own (a second reaming) are left out. */
  readonly plan: Plan;
  readonly parsed: Parsed;
  readonly meaning: Meaning;
  readonly limits: Limits;
}

export interface Candidate {
  readonly nail: CatalogueNail;
  readonly diameter: Known;
  readonly length: Known;
  /** In order; empty for a nail that goes in unreamed. */
  readonly heads: readonly Known[];
  readonly sunk: Known;
  /** "kept" leaves the plan's own cap step, or none, as it is. */
  readonly cap: Known | "none" | "kept";
}

/** What a lock is proposed to get; `predicted` when the depth is not drilled but reckoned from the bone's widths. */
export interface Screw {
  readonly hole: string;
  readonly drilled: Known;
  readonly predicted: boolean;
  readonly screw: Known;
}

export interface Trial {
  readonly candidate: Candidate;
  readonly screws: readonly Screw[];
  /** Complete as it would be written: with the plan's fallbacks. */
  readonly plan: Plan;
  readonly reckonings: Reckonings;
}

export function frameOf(analysis: Analysis, plan: Plan): Frame {
  const { parsed, meaning } = analysis;
  const open = (problem: Problem): boolean => !isResolved(plan, problem);
  return {
    analysis,
    plan: { ...plan, steps: withoutRepeats(plan.steps) },
    parsed: { ...parsed, problems: parsed.problems.filter(open) },
    meaning: { ...meaning, problems: meaning.problems.filter(open) },
    limits: limitsOf(plan.follows.flatMap(({ document }) => (document === undefined ? [] : [document]))),
  };
}

/** The nail is put in without widening the canal, and that is for the writer to decide. */
export function isUnreamed({ plan }: Frame): boolean {
  return stepsOf(plan, "unreamed").length > 0;
}

/** The plan with the candidate laid over it, and its reckonings. */
export function lay(frame: Frame, candidate: Candidate): Trial {
  const steps = stepsFor(frame, candidate);
  const first = reckonedOver(frame, candidate, steps);
  const expected = expectedDepths(first.plan, first.reckonings);
  const drilled = expected.length === 0 ? first : reckonedOver(frame, candidate, [...steps, ...expected]);
  const wrong = wrongScrews(frame, drilled);
  const chosen = locksOf(drilled.plan).flatMap((lock) => screwFor(drilled, lock, wrong, expected));
  const screws = chosen.map(({ screw }) => screw);
  const changed = chosen.flatMap(({ lock }) => lock ?? []);
  if (changed.length === 0) return { candidate, screws, ...drilled };
  const others = expected.filter(({ hole }) => changed.every((lock) => lock.hole.text !== hole.text));
  return { candidate, screws, ...reckonedOver(frame, candidate, [...steps, ...others, ...changed]) };
}

export function judged(frame: Frame, { plan, reckonings }: Pick<Trial, "plan" | "reckonings">): Judgement {
  return judge({ parsed: frame.parsed, meaning: { ...frame.meaning, document: plan }, reckonings });
}

/** The plan without any nail, reaming, cap and screws, judged: what is found here no choice of them takes away. */
export function judgedBare(frame: Frame): Judgement {
  const gone: readonly Step["kind"][] = ["ream", "unreamed", "nail", "cap", "lock"];
  const steps = frame.plan.steps.filter(({ kind }) => !gone.includes(kind));
  const plan: Plan = { ...frame.plan, nail: undefined, steps, fallbacks: [] };
  return judged(frame, { plan, reckonings: reckon(plan) });
}

/** Errors nobody signed for; a demand for a step that stands in the laid plan, if not yet in the text, is met by it. */
export function errorsOf({ findings }: Judgement, { steps }: Plan): readonly Finding[] {
  return findings.filter(
    ({ slug, grade, waived, at }) =>
      grade === "error" && waived === undefined && !(slug === "demanded" && steps.some(({ kind }) => kind === at)),
  );
}

/**
 * The errors of a trial; empty when it may be proposed. One of the errors `known` from other trials that is found again settles
 * it without judging the rest.
 */
export function errorsAgainst(frame: Frame, trial: Trial, known: readonly Finding[]): readonly Finding[] {
  const again = known.find((error) => isFoundAgain(frame, trial, error));
  if (again !== undefined) return [again];
  const { plan } = trial;
  const own = errorsOf(judged(frame, { ...trial, plan: { ...plan, fallbacks: [] } }), plan);
  return own.length > 0 || plan.fallbacks.length === 0 ? own : errorsOf(judged(frame, trial), plan);
}

/** A finding's message, with the fallback it was found under. */
export function wordsOf({ message, fallback }: Finding): string {
  return fallback === undefined ? message : `${message} (in the fallback "${fallback}")`;
}

/** The same slug with the same words about the same thing is graded and waived the same way. */
function isFoundAgain({ analysis, limits }: Frame, trial: Trial, error: Finding): boolean {
  const rule = rules.find(({ slug }) => slug === error.slug);
  const laid = underFallback(trial, error.fallback);
  if (rule?.kind !== "plan" || laid === undefined) return false;
  const subject: Subject = { ...laid, text: analysis.text, limits };
  return attempt(() => rule.check(subject)).found.some(
    ({ at, message }) => at === error.at && message === error.message,
  );
}

function underFallback(trial: Trial, named: string | undefined): Reckoned | undefined {
  if (named === undefined) return trial;
  const fallback = trial.plan.fallbacks.find(({ when }) => when.text === named);
  if (fallback === undefined) return undefined;
  const plan = overlay(trial.plan, fallback);
  return { plan, reckonings: reckon(plan) };
}

type Reckoned = Pick<Trial, "plan" | "reckonings">;

function reckonedOver({ plan, analysis }: Frame, { nail }: Candidate, steps: readonly Step[]): Reckoned {
  const place: Place = { file: analysis.file, span: { start: 0, end: 0 } };
  const laid = overlay(plan, { when: { text: "", place }, steps, place });
  const whole = { ...laid, nail, fallbacks: plan.fallbacks, removal: removalOf(plan, laid) };
  return { plan: whole, reckonings: reckon(whole) };
}

/** A cap that goes in where none was planned has to come out again, where a removal is planned. */
function removalOf({ removal, steps }: Plan, laid: Plan): Plan["removal"] {
  if (removal === undefined || !takesCapToo({ removal, steps }, laid)) return removal;
  const { place } = removal;
  return { ...removal, steps: [{ kind: "take", things: [{ text: "cap", place }], place }, ...removal.steps] };
}

/** Whether the removal needs the cap in it because the proposal puts one in. */
export function takesCapToo({ removal, steps }: Pick<Plan, "removal" | "steps">, laid: Plan): boolean {
  const isCap = (step: Step): boolean => step.kind === "cap" && !step.none;
  if (removal === undefined || removal.steps.length === 0 || steps.some(isCap)) return false;
  return laid.steps.some(isCap) && taking(removal, "cap") === undefined;
}

function stepsFor(frame: Frame, candidate: Candidate): readonly Step[] {
  const { plan } = frame;
  const places = placesFor(plan);
  const { heads, cap } = candidate;
  const reams = heads.length > 0;
  const wire: Step = { kind: "wire", tip: said("ball-tip", places.ream.place), ...places.ream };
  return [
    ...(reams && stepsOf(plan, "wire").length === 0 ? [wire] : []),
    ...(reams ? [reamStep(heads, places.ream)] : []),
    nailStep(candidate, places.nail, nailStepOf(plan)),
    ...(cap === "kept" ? [] : capStep(plan, cap, places.cap)),
  ];
}

interface Places {
  readonly place: Place;
  readonly wordPlace: Place;
}

/** Where each proposed step stands, or would: beside what it belongs to. */
function placesFor(plan: Plan): { readonly ream: Places; readonly nail: Places; readonly cap: Places } {
  const own = (kind: Step["kind"]): Places | undefined => plan.steps.find((step) => step.kind === kind);
  const operation: Places = { place: plan.operation, wordPlace: plan.operation };
  const nail = own("nail") ?? operation;
  return { ream: own("ream") ?? nail, nail, cap: own("cap") ?? nail };
}

function reamStep(heads: readonly Known[], { place, wordPlace }: Places): ReamStep {
  return { kind: "ream", heads: { sizes: heads.map((quantity) => ({ quantity, place })), place }, place, wordPlace };
}

function nailStep(candidate: Candidate, places: Places, own: NailStep | undefined): NailStep {
  const { nail, diameter, length, sunk } = candidate;
  const at = (typed: Typed | undefined, quantity: Known): Typed => ({ quantity, place: (typed ?? places).place });
  return {
    kind: "nail",
    name: said(nail.name.text, (own?.name ?? places).place),
    diameter: at(own?.diameter, diameter),
    length: at(own?.length, length),
    sunk: at(own?.sunk, sunk),
    place: places.place,
    wordPlace: places.wordPlace,
  };
}

function capStep(plan: Plan, cap: Known | "none", { place, wordPlace }: Places): readonly CapStep[] {
  const own = stepsOf(plan, "cap")[0];
  if (cap !== "none") {
    const extension: Typed = { quantity: cap, place: (own?.extension ?? { place }).place };
    return [{ kind: "cap", extension, none: false, place, wordPlace }];
  }
  return own === undefined ? [] : [{ kind: "cap", extension: undefined, none: true, place, wordPlace }];
}

function said(text: string, place: Place): Said {
  return { text, place };
}

/** Locks whose depth nobody drilled, with the bone in their path as the depth to expect, in whole millimetres upwards. */
function expectedDepths(plan: Plan, reckonings: Reckonings): readonly LockStep[] {
  return locksOf(plan).flatMap((lock) => {
    if (lock.drilled !== undefined) return [];
    const depth = roundUp(answerOf(reckonings, `hole.${lock.hole.text}.path`), constant(1, "mm"));
    return isLength(depth) ? [{ ...lock, drilled: { quantity: depth, place: lock.place } }] : [];
  });
}

/** The screw of a lock with a depth, and the lock with it where it is another one than typed; none when none suits. */
function screwFor(
  { reckonings }: Reckoned,
  lock: LockStep,
  wrong: ReadonlySet<string>,
  expected: readonly LockStep[],
): readonly { readonly screw: Screw; readonly lock: LockStep | undefined }[] {
  const hole = lock.hole.text;
  const [drilled, typed] = [lock.drilled?.quantity, lock.screw?.quantity];
  if (!isLength(drilled)) return [];
  const predicted = expected.includes(lock);
  if (isLength(typed) && !wrong.has(hole)) {
    return [{ screw: { hole, drilled, predicted, screw: typed }, lock: undefined }];
  }
  const best = answerOf(reckonings, `screw.${hole}.best`);
  if (!isLength(best)) return [];
  const put: LockStep = { ...lock, screw: { quantity: best, place: (lock.screw ?? lock).place } };
  return [{ screw: { hole, drilled, predicted, screw: best }, lock: put }];
}

/** Rules whose findings another length of the screw takes away. */
const aboutScrews = rules.filter(
  (rule) =>
    rule.kind === "plan" &&
    ["screw-overlength", "screw-perforates", "screw-short", "screw-unlisted"].includes(rule.slug),
);

/** Holes whose screw something is surely found against; the others keep the screw the writer gave them. */
function wrongScrews({ analysis, limits }: Frame, laid: Reckoned): ReadonlySet<string> {
  const subject: Subject = { ...laid, text: analysis.text, limits };
  const found = aboutScrews.flatMap((rule) =>
    rule.kind === "plan"
      ? attempt(() => rule.check(subject)).found.filter(({ grade }) => grade === undefined || grade === rule.grade)
      : [],
  );
  return new Set(found.flatMap(({ at }) => at ?? []));
}

/** One reaming, one cap: a second one of the writer's would contradict the proposal's. */
function withoutRepeats(steps: readonly Step[]): readonly Step[] {
  const reams = steps.filter(({ kind }) => kind === "ream" || kind === "unreamed");
  const caps = steps.filter(({ kind }) => kind === "cap");
  const gone = new Set<Step>([...reams.slice(1), ...caps.slice(1)]);
  return steps.filter((step) => !gone.has(step));
}

/** Problems of lines that a proposal writes anew, and of lines that are not there yet. */
function isResolved(plan: Plan, { slug, span, inside, expected = [] }: Problem): boolean {
  if (slug === "missing" && inside === "operation" && expected.includes("nail")) return true;
  if (slug === "missing" && inside === "plan" && expected.includes("operation")) return true;
  return plan.steps.some(({ kind, place }) => {
    const within = place.file === plan.file && place.span.start <= span.start && span.end <= place.span.end;
    if (kind === "lock") return within && slug === "missing" && expected.every((word) => lockParts.includes(word));
    return within && (kind === "nail" || kind === "ream" || kind === "cap");
  });
}

const lockParts: readonly string[] = ["drilled", "screw"];
