/**
 * Proposals from the measures: the catalogues a plan reads searched for the nail, reaming, depth, cap and screws that its measures ask
 * for, each proposal with its margins. It reckons and judges nothing itself; when nothing can be proposed it says why.
 */
import { onceForEach } from "../../grammar/once.ts";
import { rules } from "../findings/all.ts";
import type { Finding } from "../findings/finding.ts";
import { lengthsOf } from "../findings/listed-sizes.ts";
import type { Plan } from "../meaning/plan.ts";
import { subtract } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import type { Analysis } from "./analyse.ts";
import { type Choice, choicesOf, headListsFor, type LeftOut } from "./propose-choices.ts";
import { type Neighbour, neighboursOf } from "./propose-neighbours.ts";
import { type Ranked, rankedOf, search } from "./propose-search.ts";
import { errorsOf, type Frame, frameOf, judged, judgedBare, lay, wordsOf } from "./propose-trial.ts";

/** One choice that may be proposed: what it is, and the plan with it, reckoned. */
export type Proposal = Ranked;

export interface Proposed {
  /** What the proposals were laid over; undefined when the text is no plan. */
  readonly frame: Frame | undefined;
  /** At most three, the best first. */
  readonly proposals: readonly Proposal[];
  /** Why there is none, in sentences; empty when there is one. */
  readonly because: readonly string[];
  /** Nails of the catalogues that were not searched, each with its reason. */
  readonly leftOut: readonly LeftOut[];
  /** Choices reckoned and judged, of all there are. */
  readonly judged: number;
  readonly candidates: number;
  /** False when the search was given up before it could be sure that these are the best. */
  readonly complete: boolean;
}

/** As many proposals as are shown. */
const wanted = 3;

/**
 * The best choices for the plan: of those whose laid-over plan has no unwaived error, by the probability that the length fits (in
 * whole per cent, as shown), the fit ratio nearest 0.9, the least bone removed. Deterministic.
 */
// An analysis never changes, so what is proposed for it does not either.
export const propose: (analysis: Analysis) => Proposed = onceForEach(proposedFor);

/** What rules out the next larger and smaller diameter and length of one proposal. */
export function neighbours({ frame, proposals }: Proposed, proposal: Proposal): readonly Neighbour[] {
  return frame === undefined ? [] : neighboursOf(frame, proposals, proposal);
}

/** Room the length leaves; negative when it is longer than the room there is. In mm. */
export function lengthMargin({ choice, candidate }: Proposal): Quantity {
  return subtract(choice.available, candidate.length);
}

/** What is still found with the proposal and nobody signed for, in the order of the text. */
export function stillFound({ frame }: Proposed, proposal: Proposal): readonly Finding[] {
  if (frame === undefined) return [];
  return judged(frame, proposal).findings.filter(
    ({ grade, waived }) => grade !== "information" && waived === undefined,
  );
}

function proposedFor(analysis: Analysis): Proposed {
  const { document } = analysis.meaning;
  if (document?.kind !== "plan") {
    return nothing(undefined, [
      document === undefined ? "It holds no plan that can be read." : `It is a ${document.kind}.`,
    ]);
  }
  const frame = frameOf(analysis, document);
  const bare = errorsOf(judgedBare(frame), frame.plan);
  const inText = bare.filter(({ slug }) => rules.find((rule) => rule.slug === slug)?.kind !== "plan");
  if (inText.length > 0) return nothing(frame, told(inText));
  const missing = whatIsMissing(document);
  if (missing !== undefined) return nothing(frame, [missing]);
  const { choices, leftOut } = choicesOf(frame);
  const [first] = choices;
  if (first === undefined) return nothing(frame, leftOut.map(leftOutWords), leftOut);
  const standing = standingErrors(frame, first, bare);
  if (standing.length > 0) return nothing(frame, told(standing), leftOut);
  return searched(frame, choices, leftOut);
}

function nothing(frame: Frame | undefined, because: readonly string[], leftOut: readonly LeftOut[] = []): Proposed {
  return { frame, proposals: [], because, leftOut, judged: 0, candidates: 0, complete: true };
}

function whatIsMissing({ uses, case: of }: Plan): string | undefined {
  if (of?.bone === undefined) return "The bone is not given.";
  const nails = uses.flatMap(({ document }) => document?.nails ?? []);
  return nails.length === 0 ? "No catalogue that was read lists a nail." : undefined;
}

/** Errors found without any nail and with one: no choice of nail takes them away. */
function standingErrors(frame: Frame, choice: Choice, bare: readonly Finding[]): readonly Finding[] {
  const { nail, sunk, cap, isthmus, diameters, sure, doubtful } = choice;
  const [diameter, length] = [diameters[0], sure[0] ?? doubtful[0]];
  if (bare.length === 0 || diameter === undefined || length === undefined) return [];
  const [heads = []] = diameters.flatMap((size) => headListsFor(frame, isthmus, size).lists);
  const trial = lay(frame, { nail, sunk, cap, diameter, length, heads });
  const key = ({ slug, at, message }: Finding): string => [slug, at, message].join("\n");
  const found = new Set(errorsOf(judged(frame, trial), trial.plan).map(key));
  return bare.filter((error) => found.has(key(error)));
}

function searched(frame: Frame, choices: readonly Choice[], leftOut: readonly LeftOut[]): Proposed {
  const { best, errors, ...counts } = search(frame, choices, wanted);
  const proposed = { frame, proposals: best, because: [], leftOut, ...counts };
  if (best.length > 0) return proposed;
  if (counts.candidates === 0) return { ...proposed, because: whyNoCandidate(frame, choices) };
  const most = errors.toSorted((a, b) => b.times - a.times).slice(0, mostReasons);
  const ruledOut = most.map(({ error, times }) => `${wordsOf(error)} (${times} of ${counts.judged} candidates judged)`);
  const given = `The search was given up after ${counts.judged} of ${counts.candidates} choices.`;
  return { ...proposed, because: counts.complete ? ruledOut : [...ruledOut, given] };
}

/** As many reasons as a reader takes in. */
const mostReasons = 5;

/** No length fits, or no diameter can be reamed for: the nearest one judged says what is wrong with it. */
function whyNoCandidate(frame: Frame, choices: readonly Choice[]): readonly string[] {
  const reasons = choices.flatMap((choice) => {
    const length = choice.sure[0] ?? choice.doubtful[0];
    return length === undefined
      ? tooLong(frame, choice)
      : choice.diameters.flatMap((size) => notReamed(frame, choice, size));
  });
  return [...new Set(reasons)].slice(0, mostReasons);
}

function tooLong(frame: Frame, choice: Choice): readonly string[] {
  const [shortest] = lengthsOf(choice.nail.lengths);
  const [diameter] = choice.diameters;
  if (shortest === undefined || diameter === undefined) return [];
  return foundWith(frame, choice, { diameter, heads: [], length: shortest }, (slug) => slug === "nail-long");
}

function notReamed(frame: Frame, choice: Choice, diameter: Choice["diameters"][number]): readonly string[] {
  const { nearest, because } = headListsFor(frame, choice.isthmus, diameter);
  const [length] = [...choice.sure, ...choice.doubtful];
  if (because !== undefined || length === undefined) return because === undefined ? [] : [`${because}.`];
  return foundWith(frame, choice, { diameter, heads: nearest, length }, (slug) => keptByHeads.has(slug));
}

/** What a list of heads is held to; how far it goes over the isthmus is told, and rules nothing out. */
const keptByHeads: ReadonlySet<string> = new Set([
  "reaming-order",
  "reaming-overshoot",
  "reaming-start",
  "reaming-step",
  "reaming-undershoot",
]);

type Tried = Pick<Proposal["candidate"], "diameter" | "heads" | "length">;

function foundWith(
  frame: Frame,
  choice: Choice,
  { diameter, heads, length }: Tried,
  about: (slug: string) => boolean,
): readonly string[] {
  const trial = rankedOf(frame, { choice, diameter, heads }, length);
  const { findings } = judged(frame, { ...trial, plan: { ...trial.plan, fallbacks: [] } });
  return findings.filter(({ slug, waived }) => waived === undefined && about(slug)).map(wordsOf);
}

function told(errors: readonly Finding[]): readonly string[] {
  return errors.map((error) => `${wordsOf(error)} No choice of nail takes this away.`);
}

function leftOutWords({ what, because, finding }: LeftOut): string {
  return finding === undefined ? `${what}: ${because}.` : because;
}
