/**
 * What has to lie on the tray for the plan: the sizes planned, and for nail and screws one size either side. A list to count, made
 * from the steps and the catalogue; fallbacks bring their own with the plan they are laid over.
 */
import type { Place, Plan, ScrewFamily, Typed } from "../meaning/plan.ts";
import { compare } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity, Unknown } from "../quantity/quantity.ts";
import { blockingFamily } from "./blocking.ts";
import {
  ascending,
  isUnknown,
  locksOf,
  nailDiameterOf,
  nailLengthOf,
  nailStepOf,
  nailUnlisted,
  stepsOf,
} from "./given.ts";
import type { Subject } from "./ledger.ts";
import { headsOf } from "./reaming.ts";
import type { Basis } from "./reckoning.ts";
import { familyFor } from "./screws.ts";
import { inWords, type KnownOperand, reckoned, typedOperand } from "./writing.ts";

const basis: Basis = {
  mark: "common practice",
  text: "common practice, no single source: the planned sizes, nail and screws with one size either side",
};

/** One line of the tray: "peg screws", "50, 52, 54 mm", 3 pieces. */
export interface TrayLine {
  readonly what: string;
  /** Printed; empty where there is no size. */
  readonly sizes: string;
  readonly pieces: number;
  readonly from: readonly Place[];
}

/** `tray` in words: every line, and the pieces counted; absent when nothing is planned. */
export const reckonTray: Subject = ({ plan }) => {
  const lines = trayOf(plan);
  if (lines.length === 0) {
    return [];
  }
  const pieces = lines.reduce((sum, line) => sum + line.pieces, 0);
  const words = lines.map(({ what, sizes }) => (sizes === "" ? what : `${what} ${sizes}`));
  return [
    reckoned({
      id: "tray",
      label: "on the tray",
      answer: { kind: "word", word: `${words.join("; ")}: ${pieces} ${pieces === 1 ? "piece" : "pieces"}` },
      unit: "1",
      by: inWords(
        "count of the planned sizes",
        lines.flatMap(({ from }) => from),
      ),
      basis,
    }),
  ];
};

/** The tray in the order it is needed. A size that is not known stands as "of unknown size", never left out. */
export function trayOf(plan: Plan): readonly TrayLine[] {
  return [
    ...wires(plan),
    ...heads(plan),
    ...nails(plan),
    ...drills(plan),
    ...screws(plan),
    ...device(plan),
    ...caps(plan),
  ];
}

function wires(plan: Plan): readonly TrayLine[] {
  return stepsOf(plan, "wire").map(({ tip, place }) => ({
    what: tip === undefined ? "guide wire" : `${tip.text} guide wire`,
    sizes: "",
    pieces: 1,
    from: [place],
  }));
}

function heads(plan: Plan): readonly TrayLine[] {
  const all = headsOf(plan);
  if (all.length === 0) {
    return [];
  }
  const quantities = all.map(({ quantity }) => quantity);
  return [
    { what: "reamer heads", sizes: printed(quantities), pieces: all.length, from: all.flatMap(({ from }) => from) },
  ];
}

function nails(plan: Plan): readonly TrayLine[] {
  const step = nailStepOf(plan);
  if (step === undefined) {
    return [];
  }
  const length = nailLengthOf(plan);
  const lengths = plan.nail === undefined ? undefined : ascending(plan.nail.lengths, "length", nailUnlisted(plan));
  const chosen = withNeighbours(length.quantity, lengths);
  const name = step.name === undefined ? "nail" : `nail ${step.name.text}`;
  const diameter = nailDiameterOf(plan).quantity;
  return [
    { what: `${name}, ${size(diameter)} thick,`, sizes: printed(chosen), pieces: chosen.length, from: [step.place] },
  ];
}

interface WantedScrew {
  readonly family: ScrewFamily | Unknown;
  /** What it is called where its family is not known. */
  readonly called: string;
  readonly screw: Typed | undefined;
  readonly place: Place;
}

/** The screws of the holes, then those that stand beside the nail. */
function wantedScrews(plan: Plan): readonly WantedScrew[] {
  const locking = locksOf(plan).map((lock) => ({ ...lock, kind: "locking", listed: familyFor(plan, lock) }));
  const blocking = stepsOf(plan, "block").map((block) => ({
    ...block,
    kind: "blocking",
    listed: blockingFamily(plan, block),
  }));
  return [...locking, ...blocking].map(({ family, kind, listed, screw, place }) => ({
    family: listed,
    called: family?.text ?? kind,
    screw,
    place,
  }));
}

/** One of each drill the screws need. */
function drills(plan: Plan): readonly TrayLine[] {
  const needed = new Map<string, Place>();
  for (const { family, place } of wantedScrews(plan)) {
    const drill = "because" in family ? undefined : family.drill?.quantity;
    const words = drill === undefined ? "of unknown size" : size(drill);
    needed.set(words, needed.get(words) ?? place);
  }
  return [...needed].map(([words, place]) => ({ what: "drill", sizes: words, pieces: 1, from: [place] }));
}

/** The screws of each family, smallest first; a length that several need is there for each of them. */
function screws(plan: Plan): readonly TrayLine[] {
  const families = new Map<string, { readonly lengths: Quantity[]; readonly from: Place[] }>();
  for (const wanted of wantedScrews(plan)) {
    const name = "because" in wanted.family ? wanted.called : wanted.family.name.text;
    const group = families.get(name) ?? { lengths: [], from: [] };
    group.lengths.push(...lengthsFor(wanted));
    group.from.push(wanted.place);
    families.set(name, group);
  }
  return [...families].map(([name, { lengths, from }]) => ({
    what: `${name} screws`,
    sizes: counted(lengths),
    pieces: lengths.length,
    from,
  }));
}

function lengthsFor({ family, screw }: WantedScrew): readonly Quantity[] {
  const listed = "because" in family ? undefined : ascending(family.lengths, "length", family.name.text);
  return withNeighbours(typedOperand("screw", "mm", screw, "the length is not given").quantity, listed);
}

function device(plan: Plan): readonly TrayLine[] {
  const from = stepsOf(plan, "compress").map(({ place }) => place);
  return from.length === 0 ? [] : [{ what: "compression device", sizes: "", pieces: 1, from }];
}

function caps(plan: Plan): readonly TrayLine[] {
  return stepsOf(plan, "cap")
    .filter(({ none }) => !none)
    .map(({ extension, place }) => ({
      what: "end cap",
      sizes: size(typedOperand("cap", "mm", extension, "the extension is not given").quantity),
      pieces: 1,
      from: [place],
    }));
}

/** A size with the listed one below it and the one above it; alone where the list is not known or does not hold them. */
function withNeighbours(chosen: Quantity, listed: readonly KnownOperand[] | Unknown | undefined): readonly Quantity[] {
  if (chosen.kind === "unknown" || listed === undefined || isUnknown(listed)) {
    return [chosen];
  }
  const order = (other: Known): number => compare(other, chosen);
  const sizes = listed.map(({ quantity }) => quantity);
  const below = sizes.findLast((each) => order(each) < 0);
  const above = sizes.find((each) => order(each) > 0);
  return [...(below === undefined ? [] : [below]), chosen, ...(above === undefined ? [] : [above])];
}

/** "50 mm × 2, 52 mm": each length once, with how many. */
function counted(lengths: readonly Quantity[]): string {
  const sorted = [...lengths].sort((a, b) => (a.kind === "known" && b.kind === "known" ? a.value - b.value : 0));
  const counts = new Map<string, number>();
  for (const length of sorted) {
    counts.set(size(length), (counts.get(size(length)) ?? 0) + 1);
  }
  return [...counts].map(([words, count]) => (count === 1 ? words : `${words} × ${count}`)).join(", ");
}

function printed(sizes: readonly Quantity[]): string {
  return sizes.map(size).join(", ");
}

function size(quantity: Quantity): string {
  return quantity.kind === "unknown" ? "of unknown size" : printValue(quantity, "mm");
}
