/**
 * Each locking screw against the hole drilled for it: how far its tip passes the far cortex, and which listed length would suit. What
 * the tip may pass is the limit in force, the department's where a protocol sets it.
 */
import type { LimitSetting, LockStep, Plan, ScrewFamily } from "../meaning/plan.ts";
import { add, compare, constant, ofDimension, subtract, unknown } from "../quantity/arithmetic.ts";
import type { Quantity, Unknown } from "../quantity/quantity.ts";
import { ascending, familyNamed, holeNamed, isUnknown, locksOf, nailDiameterOf, nailUnlisted } from "./given.ts";
import type { Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import {
  fixedOperand,
  givenOperand,
  isKnown,
  type KnownOperand,
  type Operand,
  reckoned,
  typedOperand,
  written,
} from "./writing.ts";

const geometry: Basis = { mark: "computed", text: "difference of two lengths" };
const practice: Basis = {
  mark: "common practice",
  text: "common practice, no single source: the shortest length that passes the far cortex within the limit",
};

/** The default of the limit `tip-beyond-cortex`, in mm: common practice, no single source. */
export const tipBeyondCortex = { least: 0, most: 2 };

/** `screw.H.beyond` and `screw.H.best`, in mm, hole by hole as they are locked. */
export const reckonScrews: Subject = ({ plan }) => locksOf(plan).flatMap((lock) => [beyond(lock), best(plan, lock)]);

function drilledFor({ hole, drilled }: LockStep): Operand {
  return typedOperand("drilled", "mm", drilled, `it is not given how far hole ${hole.text} is drilled`);
}

function beyond(lock: LockStep): Reckoning {
  const hole = lock.hole.text;
  const screw = typedOperand("screw", "mm", lock.screw, `the length of the screw in hole ${hole} is not given`);
  const drilled = drilledFor(lock);
  const near = lock.grip === "near";
  return reckoned({
    id: `screw.${hole}.beyond`,
    label: near ? `screw in ${hole} beyond the drilled depth` : `screw in ${hole} past the far cortex`,
    answer: subtract(screw.quantity, drilled.quantity),
    unit: "mm",
    by: written`${screw} - ${drilled}`,
    basis: geometry,
    remark: near ? "the screw grips the near cortex alone" : undefined,
  });
}

function best(plan: Plan, lock: LockStep): Reckoning {
  const drilled = drilledFor(lock);
  const near = lock.grip === "near";
  const { least, most } = tipLimit(plan);
  const record = (answer: Quantity): Reckoning =>
    reckoned({
      id: `screw.${lock.hole.text}.best`,
      label: `listed screw length that suits hole ${lock.hole.text}`,
      answer,
      unit: "mm",
      by: near
        ? written`longest listed ≤ ${drilled}`
        : most === undefined
          ? written`shortest listed ≥ ${drilled} + ${least}`
          : written`shortest listed from ${drilled} + ${least} to ${drilled} + ${most}`,
      basis: practice,
    });
  const lengths = listedLengths(plan, lock);
  if (!isKnown(drilled)) {
    return record(drilled.quantity);
  }
  if (isUnknown(lengths)) {
    return record(lengths);
  }
  const chosen = near
    ? lengths.filter((length) => compare(length.quantity, drilled.quantity) <= 0).at(-1)
    : suiting(lengths, add(drilled.quantity, least.quantity), most && add(drilled.quantity, most.quantity));
  return record(chosen === undefined ? unknown("no listed length suits the drilled depth") : quantityIn(chosen));
}

function quantityIn(chosen: KnownOperand | Unknown): Quantity {
  return "kind" in chosen ? chosen : chosen.quantity;
}

/** The shortest length between both ends; an end that is unknown makes the choice unknown. */
function suiting(
  lengths: readonly KnownOperand[],
  least: Quantity,
  most: Quantity | undefined,
): KnownOperand | Unknown | undefined {
  if (least.kind === "unknown") {
    return least;
  }
  if (most?.kind === "unknown") {
    return most;
  }
  const reaching = lengths.find(({ quantity }) => compare(quantity, least) >= 0);
  const within = reaching !== undefined && (most === undefined || compare(reaching.quantity, most) <= 0);
  return within ? reaching : undefined;
}

/** The listed lengths of the family named, else of the only one the hole takes that goes with the nail. */
function listedLengths(plan: Plan, lock: LockStep): readonly KnownOperand[] | Unknown {
  const family = familyFor(plan, lock);
  return "because" in family ? family : ascending(family.lengths, "length", `screw family ${family.name.text}`);
}

/** The screw family of a lock step; unknown when it is not listed or could be one of several. */
export function familyFor(plan: Plan, { hole, family }: LockStep): ScrewFamily | Unknown {
  if (family !== undefined) {
    return familyNamed(plan, family.text) ?? unknown(`screw family ${family.text} is in no catalogue that was read`);
  }
  const listed = holeNamed(plan, hole.text);
  if (listed === undefined) {
    const nail = plan.nail?.name.text;
    return unknown(nail === undefined ? nailUnlisted(plan) : `nail ${nail} lists no hole ${hole.text}`);
  }
  const taken = listed.takes.flatMap(({ text }) => familyNamed(plan, text) ?? []);
  const going = taken.filter((each) => goesWith(each, plan));
  const [only, ...others] = going;
  if (only === undefined) {
    return unknown(`no listed screw goes into hole ${hole.text}`);
  }
  const names = going.map((each) => each.name.text).join(" or ");
  return others.length === 0 ? only : unknown(`hole ${hole.text} takes ${names}, and none is named`);
}

/** A family that names nail diameters goes with those alone. */
export function goesWith({ withDiameters }: ScrewFamily, plan: Plan): boolean {
  const diameter = nailDiameterOf(plan);
  if (withDiameters === undefined || !isKnown(diameter)) {
    return true;
  }
  return withDiameters.sizes
    .map(({ quantity }) => ofDimension(quantity, "length"))
    .some((size) => size.kind === "known" && compare(size, diameter.quantity) === 0);
}

const leastBeyond = "least beyond";
const mostBeyond = "most beyond";

interface TipLimit {
  readonly least: Operand;
  readonly most: Operand | undefined;
}

/** The limit in force: the last protocol that sets it, else the default. */
function tipLimit(plan: Plan): TipLimit {
  const set = plan.follows
    .flatMap(({ document }) => document?.limits ?? [])
    .filter(({ name }) => name.text === "tip-beyond-cortex")
    .at(-1);
  return set === undefined ? defaultLimit() : limitSet(set);
}

function defaultLimit(): TipLimit {
  return {
    least: fixedOperand(leastBeyond, constant(tipBeyondCortex.least, "mm"), "mm"),
    most: fixedOperand(mostBeyond, constant(tipBeyondCortex.most, "mm"), "mm"),
  };
}

/** An end a protocol leaves out: the screw must still reach the far cortex, and may pass it by any length. */
function limitSet({ least, most }: LimitSetting): TipLimit {
  return {
    least:
      least === undefined ? fixedOperand(leastBeyond, constant(0, "mm"), "mm") : givenOperand(leastBeyond, "mm", least),
    most: most && givenOperand(mostBeyond, "mm", most),
  };
}
