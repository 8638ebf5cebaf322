/**
 * Which end of the nail a screw holds and whether it stands in a slot, as the rules about locking, compression and removal ask. It
 * judges nothing.
 */
import type { LockStep, Plan } from "../meaning/plan.ts";
import { holeNamed, stepsOf } from "../reckoning/given.ts";
import { listed } from "./words.ts";

/** The locks through the driving end, in the order they are done. */
export function locksAtDrivingEnd(plan: Plan): readonly LockStep[] {
  return stepsOf(plan, "lock").filter((lock) => holeNamed(plan, lock.hole.text)?.end === "top");
}

/** The locks through the far end, in the order they are done. */
export function locksAtFarEnd(plan: Plan): readonly LockStep[] {
  return stepsOf(plan, "lock").filter((lock) => holeNamed(plan, lock.hole.text)?.end === "tip");
}

export function standsInSlot(plan: Plan, lock: LockStep): boolean {
  return holeNamed(plan, lock.hole.text)?.slot !== undefined;
}

/** The fixed screws at the driving end that go in before the compression they block. */
export function fixedBeforeCompression(plan: Plan): readonly LockStep[] {
  const compress = plan.steps.findIndex((step) => step.kind === "compress");
  return locksAtDrivingEnd(plan).filter((lock) => !standsInSlot(plan, lock) && plan.steps.indexOf(lock) < compress);
}

/** Why the ends of the screws cannot be told; undefined when every locked hole is in the catalogue. */
export function endsUntold(plan: Plan): string | undefined {
  if (plan.nail === undefined) return "the nail is in no catalogue that was read";
  const astray = stepsOf(plan, "lock").find((lock) => holeNamed(plan, lock.hole.text)?.end === undefined);
  return astray && `the catalogue does not list where hole ${astray.hole.text} lies`;
}

/** What draws the driving end back during the operation: "backslap and compression"; "" when nothing does. */
export function drawnBackBy(plan: Plan): string {
  const backslap = stepsOf(plan, "backslap").length > 0 ? ["backslap"] : [];
  const compression = stepsOf(plan, "compress").length > 0 ? ["compression"] : [];
  return listed([...backslap, ...compression]);
}
