/**
 * Which screw family a lock uses and what its listed lengths are, and the fix that takes the length the reckoning holds best. Whether
 * a length is right is for the rules to say.
 */
import type { LockStep, Plan, ScrewFamily } from "../meaning/plan.ts";
import { subtract } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { familyNamed, holeNamed } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { Fix, Subject } from "./finding.ts";
import { isLength, isListed, lengthsOf } from "./listed-sizes.ts";

/** The family named, else the only one the hole takes; undefined when neither tells. */
export function familyOf(plan: Plan, lock: LockStep): ScrewFamily | undefined {
  if (lock.family !== undefined) return familyNamed(plan, lock.family.text);
  const [only, another] = holeNamed(plan, lock.hole.text)?.takes ?? [];
  return only === undefined || another !== undefined ? undefined : familyNamed(plan, only.text);
}

/** Every length a screw in this lock may have: of its family, or of all families the hole takes. */
export function listedScrews(plan: Plan, lock: LockStep): readonly Known[] {
  const family = familyOf(plan, lock);
  if (family !== undefined) return lengthsOf(family.lengths);
  if (lock.family !== undefined) return [];
  const takes = holeNamed(plan, lock.hole.text)?.takes ?? [];
  return lengthsOf(...takes.map((name) => familyNamed(plan, name.text)?.lengths));
}

/** False when the length typed is known not to be listed: it is told as such, and once. */
export function isListedScrew(plan: Plan, lock: LockStep): boolean {
  const lengths = listedScrews(plan, lock);
  const typed = lock.screw?.quantity;
  return lengths.length === 0 || !isLength(typed) || isListed(lengths, typed);
}

/** "screw 40 mm → 38 mm: tip 1.0 mm past the cortex"; none when no listed length suits. */
export function bestScrew({ reckonings }: Subject, lock: LockStep): readonly Fix[] {
  const best = answerOf(reckonings, `screw.${lock.hole.text}.best`);
  const { screw: typed, drilled: depth } = lock;
  if (typed === undefined || depth === undefined || !isLength(typed.quantity) || !isLength(best)) return [];
  const drilled = depth.quantity;
  const tip =
    lock.grip === "both"
      ? `${print(subtract(best, drilled), "mm")} past the cortex`
      : `${print(subtract(drilled, best), "mm")} short of the drilled depth`;
  return [
    {
      title: `screw ${printValue(typed.quantity, "mm")} → ${printValue(best, "mm")}: tip ${tip}`,
      class: "changes a decision",
      edits: [{ span: typed.place.span, text: printValue(best, "mm") }],
    },
  ];
}
