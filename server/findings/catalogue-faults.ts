/**
 * What a plan has to hear about a catalogue it reads: figures that contradict each other. Screws that no hole takes, and holes that
 * take screws of another catalogue, are told in the catalogue alone: they change no number of the plan.
 */
import type { Catalogue } from "../meaning/plan.ts";
import { rule as boreWide } from "./bore-wide.ts";
import { rule as drivingEndNarrow } from "./driving-end-narrow.ts";
import type { Found, Grade } from "./finding.ts";
import { rule as frontCuttingUnlisted } from "./front-cutting-unlisted.ts";
import { rule as holesOverlap } from "./holes-overlap.ts";
import { rule as partOffNail } from "./part-off-nail.ts";
import { rule as rangeUnreached } from "./range-unreached.ts";
import { rule as screwDiameters } from "./screw-diameters.ts";
import { rule as sizesDisordered } from "./sizes-disordered.ts";
import { rule as travelBeyondSlot } from "./travel-beyond-slot.ts";

const rules = [
  boreWide,
  drivingEndNarrow,
  frontCuttingUnlisted,
  holesOverlap,
  partOffNail,
  rangeUnreached,
  screwDiameters,
  sizesDisordered,
  travelBeyondSlot,
];

export type Fault = Found & { readonly grade: Grade };

/** A catalogue is read once and stays the same from keystroke to keystroke: it is held against itself once. */
const known = new WeakMap<Catalogue, readonly Fault[]>();

/** The faults of a catalogue in the order of its text. */
export function faultsOf(catalogue: Catalogue): readonly Fault[] {
  const before = known.get(catalogue);
  if (before !== undefined) return before;
  const faults = lookedFor(catalogue);
  known.set(catalogue, faults);
  return faults;
}

function lookedFor(catalogue: Catalogue): readonly Fault[] {
  const faults = rules.flatMap((rule) =>
    rule.check(catalogue).found.map((found): Fault => ({ ...found, grade: found.grade ?? rule.grade })),
  );
  return faults.sort((a, b) => a.place.span.start - b.place.span.start);
}
