/**
 * What the subjects ask of a plan: its nail step, its fracture, its landmarks, its locked holes, each as operands that are unknown
 * with a reason when they were not given. Nothing is computed here.
 */
import type {
  CatalogueHole,
  Landmark,
  LockStep,
  NailStep,
  Plan,
  ScrewFamily,
  SizeList,
  Step,
  Typed,
  Width,
} from "../meaning/plan.ts";
import { compare, exact, unknown } from "../quantity/arithmetic.ts";
import type { Unknown } from "../quantity/quantity.ts";
import {
  fixedOperand,
  givenOperand,
  isKnown,
  type KnownOperand,
  type Operand,
  typedOperand,
  unknownOperand,
} from "./writing.ts";

type StepKind = Step["kind"];
export type StepOf<Kind extends StepKind> = Extract<Step, { readonly kind: Kind }>;

/** All steps of one kind, in the order they are done. */
export function stepsOf<Kind extends StepKind>(plan: Plan, kind: Kind): readonly StepOf<Kind>[] {
  return ofKind(plan.steps, kind);
}

/** Those of one kind among steps, in their order. */
export function ofKind<Kind extends StepKind>(steps: readonly Step[], kind: Kind): readonly StepOf<Kind>[] {
  return steps.filter((step): step is StepOf<Kind> => step.kind === kind);
}

export function nailStepOf(plan: Plan): NailStep | undefined {
  return stepsOf(plan, "nail")[0];
}

/** The level of the nail's driving end when it is in. */
export function sunkOf(plan: Plan): Operand {
  return ofNail(plan, "sunk", (nail) => nail.sunk, "it is not given how far the nail is sunk");
}

export function nailLengthOf(plan: Plan): Operand {
  return ofNail(plan, "length", (nail) => nail.length, "the length of the nail is not given");
}

export function nailDiameterOf(plan: Plan): Operand {
  return ofNail(plan, "diameter", (nail) => nail.diameter, "the diameter of the nail is not given");
}

/** Why nothing can be taken from the catalogue's nail. */
export function nailUnlisted(plan: Plan): string {
  const name = nailStepOf(plan)?.name?.text;
  return name === undefined ? "no nail of a catalogue is named" : `nail ${name} is in no catalogue that was read`;
}

/** A value of the catalogue's nail. */
export function listedOf(plan: Plan, name: string, unit: string, typed: Typed | undefined, what: string): Operand {
  const missing = plan.nail === undefined ? nailUnlisted(plan) : `nail ${plan.nail.name.text} lists no ${what}`;
  return typedOperand(name, unit, typed, missing);
}

export function landmarkOf(plan: Plan, ...names: readonly string[]): Landmark | undefined {
  return plan.measures.landmarks.find((landmark) => names.includes(landmark.name.text));
}

export function scarOf(plan: Plan): Operand | undefined {
  return landmarkOperand(plan, "scar", "scar");
}

/** The joint line at the far end of the bone, which may be called `plafond` or `joint`. */
export function farJointLandmark(plan: Plan): Landmark | undefined {
  return landmarkOf(plan, "plafond", "joint");
}

/** The level of the far joint line, under the name the plan gives it. */
export function farJointOf(plan: Plan): Operand | undefined {
  const landmark = farJointLandmark(plan);
  return landmark === undefined ? undefined : givenOperand(landmark.name.text, "mm", landmark.level);
}

/** What the far joint line is called when the plan does not give it: the plafond is the tibia's alone. */
export function farJointName(plan: Plan): "plafond" | "joint" {
  return plan.case?.bone?.text === "tibia" ? "plafond" : "joint";
}

export function farJointMissing(plan: Plan): string {
  return `no landmark ${farJointName(plan)} is given`;
}

/** True for a femur or a humerus: what is known of the tibia alone is not said of them. */
export function isOtherBone(plan: Plan): boolean {
  const bone = plan.case?.bone?.text;
  return bone === "femur" || bone === "humerus";
}

/** The lower edge of the lesser trochanter, where the proximal end segment of a femur ends. */
export function lesserTrochanterOf(plan: Plan): Operand | undefined {
  return landmarkOperand(plan, "lesser-trochanter", "lesser-trochanter");
}

/** The tibia's near joint line: level 0 when it is not given. */
export function kneeJointOf(plan: Plan): Operand {
  return landmarkOperand(plan, "knee-joint", "knee-joint") ?? fixedOperand("knee-joint", exact(0, "mm"), "mm");
}

export interface Edges {
  readonly from: Operand;
  readonly to: Operand;
}

/** The near and the far edge of the fracture, as typed. */
export function typedEdgesOf(plan: Plan): Edges {
  const fracture = plan.case?.fracture;
  const missing = (what: string): string =>
    fracture === undefined ? "no fracture is given" : `the fracture's ${what} edge is not given`;
  return {
    from: typedOperand("fracture from", "mm", fracture?.from, missing("near")),
    to: typedOperand("fracture to", "mm", fracture?.to, missing("far")),
  };
}

/** The edges, both unknown when they are typed the wrong way round: nothing can be said of a side then. */
export function edgesOf(plan: Plan): Edges {
  const { from, to } = typedEdgesOf(plan);
  if (!isKnown(from) || !isKnown(to) || compare(from.quantity, to.quantity) <= 0) {
    return { from, to };
  }
  const reversed = unknown("the fracture's edges are the wrong way round");
  return { from: { ...from, quantity: reversed }, to: { ...to, quantity: reversed } };
}

export function gapOf(plan: Plan): Operand {
  return typedOperand("gap", "mm", plan.case?.fracture?.gap, "no gap of the fracture is given");
}

/** The lock steps, one a hole: the first when a hole is locked twice. */
export function locksOf(plan: Plan): readonly LockStep[] {
  const seen = new Set<string>();
  return stepsOf(plan, "lock").filter(({ hole }) => (seen.has(hole.text) ? false : seen.add(hole.text)));
}

export function holeNamed(plan: Plan, name: string): CatalogueHole | undefined {
  return holesOf(plan).find((hole) => hole.name.text === name);
}

/** The holes of the catalogue's nail; none when no nail was read. */
export function holesOf(plan: Plan): readonly CatalogueHole[] {
  return plan.nail === undefined ? [] : plan.nail.holes;
}

export function familyNamed(plan: Plan, name: string): ScrewFamily | undefined {
  return plan.screwFamilies.find((family) => family.name.text === name);
}

/**
 * The sizes of a catalogue's list from small to large; unknown when there is no list or one of its sizes is unknown. `what` and
 * `owner` name them in the reason: "length" of "nail".
 */
export function ascending(list: SizeList | undefined, what: string, owner: string): readonly KnownOperand[] | Unknown {
  if (list === undefined || list.sizes.length === 0) {
    return unknown(`${owner} lists no ${what}`);
  }
  const before = sorted.get(list);
  if (before !== undefined) {
    return before;
  }
  const sizes = list.sizes.map((size) => givenOperand(what, "mm", size));
  const blank = sizes.map(({ quantity }) => quantity).find((quantity) => quantity.kind === "unknown");
  const result = blank ?? sizes.filter(isKnown).sort((a, b) => a.quantity.value - b.quantity.value);
  sorted.set(list, result);
  return result;
}

/** Catalogues are long and stay the same from keystroke to keystroke: a list of theirs is sorted once. */
const sorted = new WeakMap<SizeList, readonly KnownOperand[] | Unknown>();

export function isUnknown(value: readonly Operand[] | Unknown): value is Unknown {
  return "kind" in value;
}

/** Every width and depth given in a list of widths, each with its level. */
export function sizesIn(widths: readonly Width[]): readonly Size[] {
  return widths.flatMap(({ level, width, depth }) => [
    ...(width === undefined ? [] : [{ side: "width" as const, level, size: width }]),
    ...(depth === undefined ? [] : [{ side: "depth" as const, level, size: depth }]),
  ]);
}

export interface Size {
  readonly side: "width" | "depth";
  readonly level: Typed;
  readonly size: Typed;
}

function ofNail(plan: Plan, name: string, pick: (nail: NailStep) => Typed | undefined, missing: string): Operand {
  const nail = nailStepOf(plan);
  return nail === undefined
    ? unknownOperand(name, unknown("no nail is planned"))
    : typedOperand(name, "mm", pick(nail), missing);
}

function landmarkOperand(plan: Plan, name: string, ...called: readonly string[]): Operand | undefined {
  const landmark = landmarkOf(plan, ...called);
  return landmark === undefined ? undefined : givenOperand(name, "mm", landmark.level);
}
