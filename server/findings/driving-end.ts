/**
 * What draws the driving end back, and whether the ends of the screws can be told at all, as the rules about locking and compression
 * ask. Which end a screw holds is in `order.ts`; nothing is judged here.
 */
import type { Plan } from "../meaning/plan.ts";
import { holeNamed, stepsOf } from "../reckoning/given.ts";
import { listed } from "./words.ts";

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
