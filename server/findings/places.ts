/**
 * The places a finding points to besides its own: the nail step, a hole in the catalogue, the fracture. One wording for each.
 */
import type { NailStep, Place, Plan } from "../meaning/plan.ts";
import { compare } from "../quantity/arithmetic.ts";
import { holeNamed, nailStepOf } from "../reckoning/given.ts";
import type { Related, Subject } from "./finding.ts";
import { isLength } from "./listed-sizes.ts";

/** The nail step's own part, or the whole step when that part is not given. */
export function aboutNail(plan: Plan, part: "diameter" | "length" | "sunk"): readonly Related[] {
  const nail = nailStepOf(plan);
  return nail === undefined ? [] : [{ place: (nail[part] ?? nail).place, message: nailWords[part] }];
}

/** The hole as the catalogue lists it. */
export function aboutHole(plan: Plan, hole: string): readonly Related[] {
  const listed = holeNamed(plan, hole);
  return listed === undefined ? [] : [{ place: listed.place, message: `Hole ${hole} as the catalogue lists it.` }];
}

/** The nail as the catalogue lists it. */
export function aboutListedNail(plan: Plan): readonly Related[] {
  const { nail } = plan;
  return nail === undefined
    ? []
    : [{ place: nail.place, message: `Nail ${nail.name.text} as the catalogue lists it.` }];
}

export function aboutFracture(plan: Plan): readonly Related[] {
  const fracture = plan.case?.fracture;
  return fracture === undefined ? [] : [{ place: fracture.place, message: "The fracture." }];
}

/** The bone the case names, whose norm a measure is held against. */
export function aboutBone(plan: Plan): readonly Related[] {
  const bone = plan.case?.bone;
  return bone === undefined ? [] : [{ place: bone.place, message: "The bone it is read of." }];
}

/** What draws the nail back during the operation. */
export function aboutDrawingBack(plan: Plan): readonly Related[] {
  return plan.steps
    .filter((step) => step.kind === "backslap" || step.kind === "compress")
    .map((step) => ({ place: step.wordPlace, message: "The nail is drawn back here." }));
}

/** A landmark of that name, as it was read. */
export function aboutLandmark(plan: Plan, name: string): readonly Related[] {
  return plan.measures.landmarks
    .filter((landmark) => landmark.name.text === name)
    .map(({ place }) => ({ place, message: `The landmark ${name}.` }));
}

const nailWords: Readonly<Record<keyof Pick<NailStep, "diameter" | "length" | "sunk">, string>> = {
  diameter: "The nail's diameter.",
  length: "The nail's length.",
  sunk: "How far the nail is sunk.",
};

/** Where the narrowest part of the canal was read: the reading with the smallest width or depth. */
export function isthmusPlace({ plan }: Subject): Place {
  const known = plan.measures.canals.flatMap(({ width, depth, place }) =>
    [width, depth].flatMap((typed) => (isLength(typed?.quantity) ? [{ size: typed.quantity, place }] : [])),
  );
  const [narrowest] = known.toSorted((a, b) => compare(a.size, b.size));
  return narrowest?.place ?? plan.measures.canals[0]?.place ?? plan.operation;
}
