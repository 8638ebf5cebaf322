/**
 * The numbers a proposal is shown with, the same on every face: room, reaming, fit, bone removed, cap and screws, each as it was
 * reckoned; and the record of all proposals that the machine-readable face prints (`proposals.schema.json`).
 */
import { halfWidthIn, isExact, valueIn } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { Analysis } from "./analyse.ts";
import { catalogueNotices } from "./caution.ts";
import { lengthMargin, neighbours, type Proposal, type Proposed, propose, stillFound } from "./propose.ts";
import { proposedLines } from "./propose-lines.ts";
import type { Neighbour } from "./propose-neighbours.ts";
import { chanceText } from "./propose-search.ts";
import { wordsOf } from "./propose-trial.ts";

export interface Figure {
  /** The reckoning it is, or would be for this length. */
  readonly id: string;
  readonly label: string;
  readonly quantity: Quantity;
  readonly unit: string;
  readonly remark?: string;
}

/** The figures of a proposal in the order they are shown; what has no meaning for it (an unreamed nail) is left out. */
export function figuresOf(proposal: Proposal): readonly Figure[] {
  const { reckonings, screws } = proposal;
  const reckoned = (id: string, label: string): readonly Figure[] => {
    const reckoning = reckonings.byId.get(id);
    return reckoning === undefined ? [] : [{ id, label, quantity: answerOf(reckonings, id), unit: reckoning.unit }];
  };
  return [
    {
      id: "length.margin",
      label: "length margin",
      quantity: lengthMargin(proposal),
      unit: "mm",
      remark: `fits with ${chanceText(proposal)}`,
    },
    ...reckoned("ream.over", "over-reaming"),
    ...reckoned("fit.ratio", "fit ratio"),
    ...reckoned("ream.removed", "bone removed"),
    ...reckoned("ream.cortexLeft", "thinnest cortex left"),
    ...reckoned("cap.top", "cap below the bone"),
    ...screws.flatMap(({ hole, drilled, predicted }) =>
      reckoned(`screw.${hole}.beyond`, `screw ${hole} past the depth`).map((figure) => ({
        ...figure,
        remark: `${printValue(drilled, "mm")} ${predicted ? "expected from the bone's widths, not drilled" : "drilled"}`,
      })),
    ),
  ];
}

/** Raised when a field changes its meaning or goes; a new field alone does not raise it. */
const edition = 1;

/** All proposals of an analysis as plain data; lengths in mm, unrounded. `name` is the file as the reader knows it. */
export function proposalsRecord(analysis: Analysis, name: string, digest: string, caution: string): object {
  const proposed = propose(analysis);
  return {
    edition,
    file: name,
    digest,
    caution,
    catalogues: catalogueNotices(analysis),
    judged: proposed.judged,
    candidates: proposed.candidates,
    complete: proposed.complete,
    because: proposed.because,
    leftOut: proposed.leftOut.map(({ what, because, finding }) => ({ what, because, slug: finding?.slug ?? null })),
    proposals: proposed.proposals.map((proposal) => proposalRecord(proposed, proposal)),
  };
}

function proposalRecord(proposed: Proposed, proposal: Proposal): object {
  const { candidate, screws, fits } = proposal;
  const { nail, diameter, length, heads, sunk, cap } = candidate;
  return {
    nail: nail.name.text,
    diameter: inMillimetres(diameter),
    length: inMillimetres(length),
    sunk: inMillimetres(sunk),
    heads: heads.map(inMillimetres),
    cap: typeof cap === "string" ? cap : inMillimetres(cap),
    screws: screws.map(({ hole, drilled, predicted, screw }) => {
      return { hole, drilled: inMillimetres(drilled), predicted, length: inMillimetres(screw) };
    }),
    statements: proposed.frame === undefined ? [] : proposedLines(proposed.frame, proposal),
    fits,
    figures: figuresOf(proposal).map(figureRecord),
    stillFound: stillFound(proposed, proposal).map((finding) => {
      return { slug: finding.slug, grade: finding.grade, message: wordsOf(finding) };
    }),
    neighbours: neighbours(proposed, proposal).map(neighbourRecord),
  };
}

function figureRecord({ id, label, quantity, unit, remark }: Figure): object {
  const told = remark === undefined ? {} : { remark };
  if (quantity.kind === "unknown")
    return { id, label, value: null, unit, plusMinus: 0, because: quantity.because, ...told };
  const plusMinus = isExact(quantity) ? 0 : halfWidthIn(quantity, unit);
  return { id, label, value: valueIn(quantity, unit), unit, plusMinus, ...told };
}

function neighbourRecord({ what, way, size, finding, words }: Neighbour): object {
  const found = finding === undefined ? null : { slug: finding.slug, grade: finding.grade };
  return { what, way, size: size === undefined ? null : inMillimetres(size), found, words };
}

function inMillimetres(quantity: Known): number {
  return valueIn(quantity, "mm");
}
