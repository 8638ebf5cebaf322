/**
 * What the removal takes out and what was put in, as both rules about it ask. Screws that a dynamisation takes out before are no longer
 * there.
 */
import type { LockStep, Plan, Removal, Said } from "../meaning/plan.ts";
import { holeNamed, locksOf } from "../reckoning/given.ts";

export type RemovalStep = Removal["steps"][number];

/** The screws that still stand in the bone when the nail is to come out. */
export function placedLocks(plan: Plan): readonly LockStep[] {
  const gone = new Set(plan.aftercare?.dynamise?.remove.map((hole) => hole.text));
  return locksOf(plan).filter((lock) => !gone.has(lock.hole.text) && holeNamed(plan, lock.hole.text) !== undefined);
}

/** A step that takes something out, with the word that names it. */
export interface Taking {
  readonly step: RemovalStep;
  readonly said: Said;
}

/** The first step that takes this out. */
export function taking(removal: Removal, thing: string): Taking | undefined {
  for (const step of removal.steps) {
    if (step.kind !== "take") continue;
    const said = step.things.find((each) => each.text === thing);
    if (said !== undefined) return { step, said };
  }
  return undefined;
}

export function firstOf(removal: Removal, kind: RemovalStep["kind"]): RemovalStep | undefined {
  return removal.steps.find((step) => step.kind === kind);
}

/** True when `step` comes before `other` in the removal. */
export function comesBefore(removal: Removal, step: RemovalStep, other: RemovalStep): boolean {
  return removal.steps.indexOf(step) < removal.steps.indexOf(other);
}
