/**
 * A compression screw that travels further than any slot at the driving end lets a screw travel. A slot longer than the travel is
 * in order: dynamisation uses what is left of it.
 */
import type { CatalogueHole, CatalogueNail, Typed } from "../meaning/plan.ts";
import { maximum } from "../quantity/elementary.ts";
import { type OwnFiguresRule, overNails, ownFigures } from "./catalogue-checks.ts";
import type { Verdict } from "./finding.ts";
import { clear, found, judgeBounds } from "./judging.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "travel-beyond-slot",
  title: "Compression travel that no slot gives",
  why:
    "Compression moves a screw along its slot, so the travel ends where the slot ends, however far the compression screw turns. " +
    "A plan that counts on the whole travel would be reckoned with a closure that cannot happen.",
  grade: "error",
  basis: ownFigures,
  wrong: { change: [["slot 6 mm", "slot 4 mm"]], of: "catalogue" },
  right: { change: [], of: "catalogue" },
  check: overNails((nail) => {
    const { compression } = nail;
    if (compression === undefined) return clear;
    const slots = slotsAtDrivingEnd(nail);
    if (slots.length > 0) return compression.travel === undefined ? clear : withinSlot(nail, compression.travel, slots);
    return found({
      place: compression.place,
      message: `Nail ${nail.name.text} has a compression screw and no slot at the driving end for a screw to travel in.`,
      at: nail.name.text,
    });
  }),
};

type Slotted = CatalogueHole & { readonly slot: Typed };

function slotsAtDrivingEnd(nail: CatalogueNail): readonly Slotted[] {
  return nail.holes.filter((hole): hole is Slotted => hole.slot !== undefined && hole.end !== "tip");
}

function withinSlot(nail: CatalogueNail, travel: Typed, slots: readonly Slotted[]): Verdict {
  return judgeBounds({
    value: travel.quantity,
    bounds: { most: maximum(slots.map(({ slot }) => slot.quantity)) },
    grade: rule.grade,
    unit: "mm",
    place: travel.place,
    at: nail.name.text,
    related: slots.map(({ name, slot }) => ({ place: slot.place, message: `The slot of hole ${name.text}.` })),
    message: ({ value, limit }) =>
      `The compression screw of nail ${nail.name.text} travels ${value}; the longest slot at the driving end is ${limit}.`,
  });
}
