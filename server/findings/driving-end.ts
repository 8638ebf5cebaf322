/**
 * What draws the driving end back, how it is sunk to another depth, and whether the ends of the screws can be told at all, as the rules
 * about depth, locking and compression ask. Which end a screw holds is in `order.ts`; nothing is judged here.
 */
import type { Plan, Typed } from "../meaning/plan.ts";
import { subtract } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { holeNamed, stepsOf } from "../reckoning/given.ts";
import type { Fix } from "./finding.ts";
import { isLength } from "./listed-sizes.ts";
import { listed } from "./words.ts";

/** Why the ends of the screws cannot be told; undefined when every locked hole is in the catalogue. */
export function endsUntold(plan: Plan): string | undefined {
  if (plan.nail === undefined) return "the nail is in no catalogue that was read";
  const astray = stepsOf(plan, "lock").find((lock) => holeNamed(plan, lock.hole.text)?.end === undefined);
  return astray && `the catalogue does not list where hole ${astray.hole.text} lies`;
}

/** The nail sunk to `needed` instead, `how` far that is: "2 mm deeper". The tip goes with it. */
export function sinkTo(sunk: Typed, needed: Quantity, how: string): readonly Fix[] {
  if (!isLength(sunk.quantity) || !isLength(needed)) return [];
  const after = printValue(needed, "mm");
  return [
    {
      title: `sunk ${printValue(sunk.quantity, "mm")} → ${after}: ${how}`,
      class: "changes a decision",
      edits: [{ span: sunk.place.span, text: after }],
    },
  ];
}

/** By how much the nail then lies deeper. */
export function deeperBy(sunk: Typed, needed: Quantity): string {
  return `${print(subtract(needed, sunk.quantity), "mm")} deeper`;
}

/** What draws the driving end back during the operation: "backslap and compression"; "" when nothing does. */
export function drawnBackBy(plan: Plan): string {
  const backslap = stepsOf(plan, "backslap").length > 0 ? ["backslap"] : [];
  const compression = stepsOf(plan, "compress").length > 0 ? ["compression"] : [];
  return listed([...backslap, ...compression]);
}
