/**
 * What a planned dynamisation sets free: the travel a slot has left once the named screws are out. The nail's ends after it are in
 * `driving-end.ts` and `tip.ts`; whether it is wise or possible is judged elsewhere.
 */
import type { CatalogueHole, Plan, Said, Typed } from "../meaning/plan.ts";
import { constant, ofDimension, subtract, unknown } from "../quantity/arithmetic.ts";
import { minimum } from "../quantity/elementary.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { holeNamed, holesOf, locksOf, nailUnlisted } from "./given.ts";
import { earlier, type Ledger, type Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { fixedOperand, inWords, type Operand, reckoned, unknownOperand, type Written, written } from "./writing.ts";

type End = "top" | "tip";

const ends: readonly End[] = ["top", "tip"];

const basis: Basis = {
  mark: "catalogue",
  text: "the slot's travel as the catalogue lists it, less what compression used of it",
};

/** `dynamisation.left` in mm; absent when no dynamisation is planned, 0 when no slot is set free. */
export const reckonDynamisation: Subject = (ledger) => {
  const { plan } = ledger;
  const dynamise = plan.aftercare?.dynamise;
  if (dynamise === undefined) {
    return [];
  }
  const unlisted = holeUnlisted(plan);
  if (unlisted !== undefined) {
    const slot = unknownOperand("slot", unknown(unlisted));
    return [left(slot.quantity, written`${slot}`)];
  }
  const freed = listedEnd(plan);
  if (freed === "neither") {
    const by = inWords("no slot is set free", [dynamise.place]);
    return [left(constant(0, "mm"), by, whyHeld(plan))];
  }
  return [travelLeft(ledger, freed)];
};

/** The end of the nail whose slot the planned dynamisation sets free (`top` is the driving end); untold without the catalogue. */
export function freedEnd(plan: Plan): End | "neither" | "untold" {
  return holeUnlisted(plan) === undefined ? listedEnd(plan) : "untold";
}

function listedEnd(plan: Plan): End | "neither" {
  const removed = removedHoles(plan);
  const free = ends.filter((end) => {
    const { slots, fixed } = standing(plan, end);
    return slots.length > 0 && fixed.length === 0;
  });
  // Where both ends have nothing but slots, the one a screw is taken from is meant.
  return free.find((end) => removed.some(({ text }) => holeNamed(plan, text)?.end === end)) ?? free[0] ?? "neither";
}

function travelLeft(ledger: Ledger, end: End): Reckoning {
  const slot = shortestSlot(ledger.plan, end);
  if (end === "tip" || !ledger.byId.has("compression.amount")) {
    return left(slot.quantity, written`${slot}`);
  }
  const compression = earlier(ledger, "compression.amount", "compression");
  const remark = "the compression uses up part of the slot at the driving end";
  return left(subtract(slot.quantity, compression.quantity), written`${slot} - ${compression}`, remark);
}

function shortestSlot(plan: Plan, end: End): Operand {
  const { slots } = standing(plan, end);
  const shortest = minimum(slots.map(({ quantity }) => ofDimension(quantity, "length")));
  const from = slots.map(({ place }) => place);
  return fixedOperand(slots.length === 1 ? "slot" : "shortest slot", shortest, "mm", from);
}

function left(answer: Quantity, by: Written, remark?: string): Reckoning {
  return reckoned({
    id: "dynamisation.left",
    label: "slot travel left for dynamisation",
    answer,
    unit: "mm",
    by,
    basis,
    remark,
  });
}

/** What the screws stand in that are left at one end once the named ones are out: slots, and holes that hold. */
function standing(
  plan: Plan,
  end: End,
): { readonly slots: readonly Typed[]; readonly fixed: readonly CatalogueHole[] } {
  const removed = new Set(removedHoles(plan).map(({ text }) => text));
  const stand = new Set(locksOf(plan).flatMap(({ hole }) => (removed.has(hole.text) ? [] : hole.text)));
  const here = holesOf(plan).filter((hole) => hole.end === end && stand.has(hole.name.text));
  return { slots: here.flatMap(({ slot }) => slot ?? []), fixed: here.filter(({ slot }) => slot === undefined) };
}

function removedHoles(plan: Plan): readonly Said[] {
  return plan.aftercare?.dynamise?.remove ?? [];
}

function holeUnlisted(plan: Plan): string | undefined {
  if (plan.nail === undefined) {
    return nailUnlisted(plan);
  }
  const unlisted = locksOf(plan).find(({ hole }) => holeNamed(plan, hole.text)?.end === undefined);
  return unlisted && `nail ${plan.nail.name.text} lists no place for hole ${unlisted.hole.text}`;
}

function whyHeld(plan: Plan): string {
  const held = ends.find((end) => standing(plan, end).slots.length > 0);
  if (held === undefined) {
    return "no screw stands in a slot once the named screws are out";
  }
  const names = standing(plan, held).fixed.map(({ name }) => name.text);
  return `${names.join(" and ")} still ${names.length === 1 ? "holds" : "hold"} that end`;
}
