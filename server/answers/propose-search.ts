/**
 * The search for the best choices: the order they are put in, and a branch and bound that judges no more of them than it takes to be
 * sure of the best. What there is to choose from is in `propose-choices.ts`.
 */
import type { Finding } from "../findings/finding.ts";
import { compare, divide, isExact, valueIn } from "../quantity/arithmetic.ts";
import { maximum } from "../quantity/elementary.ts";
import { printPercent } from "../quantity/print.ts";
import { probabilityAbove } from "../quantity/probability.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { type Choice, headListsFor } from "./propose-choices.ts";
import { errorsAgainst, type Frame, lay, type Trial } from "./propose-trial.ts";

/** What the choices are ordered by, each the less the better, in this order. */
export interface Rank {
  /** Probability that the length does not fit, in whole per cent: as it is shown. */
  readonly unlikely: number;
  /** Fit ratio's distance from 0.9. */
  readonly astray: number;
  /** Bone removed by reaming in mm³; infinite when it is not known. */
  readonly removed: number;
}

/** A choice that may be proposed. */
export interface Ranked extends Trial {
  readonly choice: Choice;
  readonly rank: Rank;
  /** Probability that the length fits. */
  readonly fits: number;
}

export interface Searched {
  /** Best first. */
  readonly best: readonly Ranked[];
  /** Choices reckoned and judged. */
  readonly judged: number;
  /** All there are, those that were not judged too. */
  readonly candidates: number;
  /** False when the search was given up before it could be sure of the best. */
  readonly complete: boolean;
  /** Errors that ruled out what was judged, each once with how often it did. */
  readonly errors: readonly { readonly error: Finding; readonly times: number }[];
}

/** More than this many choices are not judged for one plan. */
const mostJudged = 300;

/** The `wanted` best choices without an error. The same plan gives the same choices. */
export function search(frame: Frame, choices: readonly Choice[], wanted: number): Searched {
  const branches = branchesOf(frame, choices);
  const errors = new Map<string, { error: Finding; times: number }>();
  let best: readonly Ranked[] = [];
  let judged = 0;
  const attempt = (branch: Branch, length: Known): boolean => {
    judged += 1;
    const ranked = rankedOf(frame, branch, length);
    const against = errorsAgainst(
      frame,
      ranked,
      [...errors.values()].map(({ error }) => error),
    );
    for (const error of against) count(errors, error);
    if (against.length > 0) return false;
    best = [...best, ranked].toSorted(inOrder).slice(0, wanted);
    return true;
  };
  let complete = true;
  for (const branch of branches) {
    const last = best[wanted - 1];
    if (last !== undefined && byRank(branch.bound, last.rank) > 0) break;
    for (const length of branch.lengths) {
      if (judged >= mostJudged) complete = false;
      if (!complete || attempt(branch, length)) break;
    }
  }
  const candidates = branches.reduce((sum, { lengths }) => sum + lengths.length, 0);
  return { best, judged, candidates, complete, errors: [...errors.values()] };
}

/** Better first; what is as good in everything keeps an order of its own: the longer, the thinner, the less reamed, by name. */
function inOrder(a: Ranked, b: Ranked): number {
  return byRank(a.rank, b.rank) || compare(b.candidate.length, a.candidate.length) || byMake(a, b);
}

function byMake({ candidate: a }: Ranked, { candidate: b }: Ranked): number {
  const [last, other] = [a.heads.at(-1), b.heads.at(-1)];
  const heads = last === undefined || other === undefined ? 0 : compare(last, other);
  return compare(a.diameter, b.diameter) || heads || (a.nail.name.text < b.nail.name.text ? -1 : 1);
}

function byRank(a: Rank, b: Rank): number {
  return a.unlikely - b.unlikely || a.astray - b.astray || sign(a.removed, b.removed);
}

function sign(a: number, b: number): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/**
 * One nail, diameter and reaming list, with lengths of which only the first without an error counts: among lengths that surely fit
 * a longer one holds the far fragment better. A length that is doubtful is a branch of its own.
 */
interface Branch {
  readonly choice: Choice;
  readonly diameter: Known;
  readonly heads: readonly Known[];
  readonly lengths: readonly Known[];
  /** No choice of the branch ranks before it. */
  readonly bound: Rank;
}

function branchesOf(frame: Frame, choices: readonly Choice[]): readonly Branch[] {
  const branches = choices.flatMap((choice) =>
    choice.diameters.flatMap((diameter) =>
      headListsFor(frame, choice.isthmus, diameter).lists.flatMap((heads) =>
        [choice.sure, ...choice.doubtful.map((length) => [length])]
          .filter((lengths) => lengths.length > 0)
          .map((lengths) => ({ choice, diameter, heads, lengths, bound: boundOf(choice, diameter, heads, lengths) })),
      ),
    ),
  );
  return branches.toSorted((a, b) => byRank(a.bound, b.bound));
}

function boundOf(choice: Choice, diameter: Known, heads: readonly Known[], lengths: readonly Known[]): Rank {
  const unlikely = Math.min(...lengths.map((length) => unlikelyOf(chanceOf(choice, length))));
  return { unlikely, astray: astrayWith(choice.isthmus, diameter, heads), removed: 0 };
}

/** How far the fit ratio will lie from what is aimed at; the reckoning has the last word on every choice that is judged. */
export function astrayWith(isthmus: Known, diameter: Known, heads: readonly Known[]): number {
  return astrayOf(divide(diameter, maximum([isthmus, ...heads.slice(-1)])));
}

/** One choice laid over the plan, with what it is ordered by. */
export function rankedOf(frame: Frame, branch: Pick<Branch, "choice" | "diameter" | "heads">, length: Known): Ranked {
  const { choice, diameter, heads } = branch;
  const { nail, sunk, cap } = choice;
  const trial = lay(frame, { nail, sunk, cap, diameter, heads, length });
  const fits = chanceOf(choice, length);
  const removed = heads.length === 0 ? 0 : removedIn(answerOf(trial.reckonings, "ream.removed"));
  const astray = astrayOf(answerOf(trial.reckonings, "fit.ratio"));
  return { ...trial, choice, fits, rank: { unlikely: unlikelyOf(fits), astray, removed } };
}

/** A length equal to the room there is fits. */
function chanceOf({ available }: Choice, length: Known): number {
  return 1 - probabilityAbove(length, available);
}

/** How likely the length fits, in whole per cent; what is uncertain is never called certain. */
export function chanceText({ choice, fits }: Ranked): string {
  const certain = isExact(choice.available);
  return printPercent(certain ? fits : Math.min(Math.max(fits, Number.EPSILON), 1 - Number.EPSILON));
}

function unlikelyOf(fits: number): number {
  return 100 - Math.round(fits * 100);
}

/** Rounded far below anything that is shown, so that the noise of doubles decides nothing. */
function astrayOf(ratio: Quantity): number {
  return ratio.kind === "known" ? Math.round(Math.abs(valueIn(ratio, "1") - aim) * 1e9) : Infinity;
}

/** The fit ratio aimed at, inside the range of the limit `fit-ratio`. */
const aim = 0.9;

function removedIn(volume: Quantity): number {
  return volume.kind === "known" ? Math.round(valueIn(volume, "mm³") * 1e6) / 1e6 : Infinity;
}

function count(errors: Map<string, { error: Finding; times: number }>, error: Finding): void {
  const key = [error.slug, error.at, error.message, error.fallback].join("\n");
  const known = errors.get(key);
  errors.set(key, { error, times: (known?.times ?? 0) + 1 });
}
