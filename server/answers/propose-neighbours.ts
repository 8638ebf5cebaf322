/**
 * Why not the next larger and the next smaller one: a proposal with its diameter or its length moved by one listed size, judged again.
 * What is then found is told in the finding's own words; where nothing is found, what ranks it lower.
 */
import type { Finding, Grade, Judgement } from "../findings/finding.ts";
import { isListed, lengthsOf } from "../findings/listed-sizes.ts";
import { compare } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { headListsFor } from "./propose-choices.ts";
import { astrayWith, chanceText, type Ranked, rankedOf } from "./propose-search.ts";
import { errorsAgainst, type Frame, judged, wordsOf } from "./propose-trial.ts";

export interface Neighbour {
  readonly what: "diameter" | "length";
  readonly way: "larger" | "smaller";
  /** The listed size; undefined when none lies that way. */
  readonly size: Known | undefined;
  /** What rules it out, if a finding does. */
  readonly finding: Finding | undefined;
  /** The finding's message, else what ranks it where it is; a sentence. */
  readonly words: string;
}

/** The four neighbours of a proposal: diameter and length, larger and smaller. `best` are the proposals in order. */
export function neighboursOf(frame: Frame, best: readonly Ranked[], own: Ranked): readonly Neighbour[] {
  const { candidate, choice } = own;
  const lengths = lengthsOf(candidate.nail.lengths);
  const before = foundIn(frame, own);
  const ask: Asking = { frame, best, own, before };
  return [
    ...eachWay(choice.diameters, candidate.diameter, (way, size) => ofDiameter(ask, way, size)),
    ...eachWay(lengths, candidate.length, (way, size) => ofLength(ask, way, size)),
  ];
}

interface Asking {
  readonly frame: Frame;
  readonly best: readonly Ranked[];
  readonly own: Ranked;
  /** What is found with the proposal itself. */
  readonly before: Judgement;
}

type Way = Neighbour["way"];

function eachWay(
  sizes: readonly Known[],
  size: Known,
  told: (way: Way, size: Known | undefined) => Neighbour,
): readonly Neighbour[] {
  return [
    told(
      "larger",
      sizes.find((each) => compare(each, size) > 0),
    ),
    told(
      "smaller",
      sizes.findLast((each) => compare(each, size) < 0),
    ),
  ];
}

function ofDiameter(ask: Asking, way: Way, size: Known | undefined): Neighbour {
  if (size === undefined) return unlisted("diameter", way);
  const { choice, candidate } = ask.own;
  const { lists, nearest, because } = headListsFor(ask.frame, choice.isthmus, size);
  if (because !== undefined) return { what: "diameter", way, size, finding: undefined, words: `${because}.` };
  const heads = bestList(choice.isthmus, size, lists) ?? nearest;
  return told(ask, "diameter", way, size, rankedOf(ask.frame, { choice, diameter: size, heads }, candidate.length));
}

/** The list with the fit ratio nearest to what is aimed at, of equal ones the one that removes less. */
function bestList(isthmus: Known, diameter: Known, lists: readonly (readonly Known[])[]): readonly Known[] | undefined {
  return lists.toSorted((a, b) => astrayWith(isthmus, diameter, a) - astrayWith(isthmus, diameter, b))[0];
}

function ofLength(ask: Asking, way: Way, size: Known | undefined): Neighbour {
  if (size === undefined) return unlisted("length", way);
  const { choice, candidate } = ask.own;
  const { diameter, heads } = candidate;
  return told(ask, "length", way, size, rankedOf(ask.frame, { choice, diameter, heads }, size));
}

function unlisted(what: Neighbour["what"], way: Way): Neighbour {
  const word =
    what === "diameter" ? (way === "larger" ? "thicker" : "thinner") : way === "larger" ? "longer" : "shorter";
  return { what, way, size: undefined, finding: undefined, words: `None ${word} is listed.` };
}

function told(ask: Asking, what: Neighbour["what"], way: Way, size: Known, tried: Ranked): Neighbour {
  const [finding] = newIn(ask, tried);
  return { what, way, size, finding, words: finding === undefined ? standing(ask, tried) : wordsOf(finding) };
}

/** What is found with the neighbour and not with the proposal, the gravest first; under a fallback errors alone. */
function newIn({ frame, before }: Asking, tried: Ranked): readonly Finding[] {
  const known = new Set(before.findings.map(keyOf));
  const found = foundIn(frame, tried).findings.filter(
    (finding) => finding.waived === undefined && !known.has(keyOf(finding)),
  );
  if (found.length === 0) return errorsAgainst(frame, tried, []);
  return found.toSorted((a, b) => gravity[a.grade] - gravity[b.grade]);
}

const gravity: Readonly<Record<Grade, number>> = { error: 0, warning: 1, information: 2 };

function keyOf({ slug, at }: Finding): string {
  return `${slug}\n${at ?? ""}`;
}

function foundIn(frame: Frame, trial: Ranked): Judgement {
  return judged(frame, { ...trial, plan: { ...trial.plan, fallbacks: [] } });
}

function standing({ best, own }: Asking, tried: Ranked): string {
  const place = best.findIndex((each) => isSame(each, tried));
  if (place >= 0) return `Nothing is found against it: it is proposal ${place + 1}.`;
  const { reckonings, rank } = tried;
  const nothing = "Nothing is found against it, but";
  if (isShorter(own, tried)) {
    return `${nothing} ${printValue(own.candidate.length, "mm")} fits too, with ${chanceText(own)}.`;
  }
  if (rank.unlikely !== own.rank.unlikely) return `${nothing} it fits with ${chanceText(tried)}.`;
  if (rank.astray !== own.rank.astray)
    return `${nothing} its fit ratio is ${print(answerOf(reckonings, "fit.ratio"), "1")}.`;
  return `${nothing} it removes ${print(answerOf(reckonings, "ream.removed"), "ml")} of bone.`;
}

/** Of lengths that surely fit the longest is taken. */
function isShorter({ choice, candidate }: Ranked, tried: Ranked): boolean {
  return compare(tried.candidate.length, candidate.length) < 0 && isListed(choice.sure, candidate.length);
}

function isSame({ candidate: a }: Ranked, { candidate: b }: Ranked): boolean {
  return (
    a.nail === b.nail &&
    compare(a.diameter, b.diameter) === 0 &&
    compare(a.length, b.length) === 0 &&
    a.heads.length === b.heads.length &&
    a.heads.every((head) => isListed(b.heads, head))
  );
}
