/**
 * How each main fragment is held: the screws whose holes lie in it, and the length of nail between the nearest screws on either side
 * of the fracture. Blocking screws hold nothing and are not counted.
 */
import type { Plan } from "../meaning/plan.ts";
import { compare, plain, subtract, unknown } from "../quantity/arithmetic.ts";
import type { Unknown } from "../quantity/quantity.ts";
import { edgesOf, holeNamed, locksOf } from "./given.ts";
import { earlier, type Ledger, type Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import {
  called,
  inWords,
  isKnown,
  type KnownOperand,
  type Operand,
  reckoned,
  unknownOperand,
  type Written,
  written,
  writtenList,
} from "./writing.ts";

const counted: Basis = { mark: "computed", text: "count of the locked holes on that side of the fracture" };
const geometry: Basis = { mark: "computed", text: "geometry along the canal's axis" };

export type Fragment = "proximal" | "distal";

/** Locked holes by their level; unknown when a place of one of them is. */
type Locked = readonly KnownOperand[] | Unknown;

/** `fragment.proximal.screws`, `fragment.distal.screws` (plain counts) and `span.working` in mm. */
export const reckonFragments: Subject = (ledger) => {
  if (ledger.plan.case?.fracture === undefined) {
    return [];
  }
  const near = lockedIn(ledger, "proximal");
  const far = lockedIn(ledger, "distal");
  return [screwsIn(ledger, "proximal", near), screwsIn(ledger, "distal", far), workingSpan(near, far)];
};

/** The locked holes in a fragment, nearest to the driving end first; unknown when one of the levels is. */
export function lockedIn(ledger: Ledger, fragment: Fragment): Locked {
  const edges = edgesOf(ledger.plan);
  const [from, to] = [edges.from.quantity, edges.to.quantity];
  if (from.kind === "unknown") {
    return from;
  }
  if (to.kind === "unknown") {
    return to;
  }
  const levels = lockedLevels(ledger);
  const blank = levels.map(({ quantity }) => quantity).find((quantity) => quantity.kind === "unknown");
  if (blank !== undefined) {
    return blank;
  }
  return levels
    .filter(isKnown)
    .filter(({ quantity }) => (fragment === "proximal" ? compare(quantity, from) <= 0 : compare(quantity, to) >= 0))
    .sort((a, b) => a.quantity.value - b.quantity.value);
}

function lockedLevels(ledger: Ledger): readonly Operand[] {
  return locksOf(ledger.plan).map(({ hole }) => earlier(ledger, `hole.${hole.text}.level`, hole.text));
}

function screwsIn(ledger: Ledger, fragment: Fragment, holes: Locked): Reckoning {
  return reckoned({
    id: `fragment.${fragment}.screws`,
    label: `locking screws in the ${fragment} fragment`,
    answer: "kind" in holes ? holes : plain(holes.length),
    unit: "1",
    by: named(ledger.plan, "kind" in holes ? lockedLevels(ledger) : holes),
    basis: counted,
    remark: "kind" in holes || holes.length === 0 ? undefined : () => planes(ledger.plan, holes),
  });
}

/** "P2, P1": the holes that were counted, or that should have been. */
function named(plan: Plan, holes: readonly Operand[]): Written {
  const operation = [plan.operation];
  return holes.length === 0 ? inWords("none is planned", operation) : writtenList("count of ", holes, ", ", "");
}

/** "1 medial-lateral, 1 anterior-posterior". */
function planes(plan: Plan, holes: readonly Operand[]): string {
  const counts = new Map<string, number>();
  for (const { name } of holes) {
    const runs = holeNamed(plan, name)?.runs ?? "of unknown direction";
    counts.set(runs, (counts.get(runs) ?? 0) + 1);
  }
  return [...counts].map(([runs, count]) => `${count} ${runs}`).join(", ");
}

function workingSpan(near: Locked, far: Locked): Reckoning {
  const last = nearest(near, "proximal");
  const first = nearest(far, "distal");
  return reckoned({
    id: "span.working",
    label: "working length between the nearest screws",
    answer: subtract(first.quantity, last.quantity),
    unit: "mm",
    by: written`${first} - ${last}`,
    basis: geometry,
  });
}

function nearest(holes: Locked, fragment: Fragment): Operand {
  const blank = (because: Unknown): Operand => unknownOperand(`last ${fragment} screw`, because);
  if ("kind" in holes) {
    return blank(holes);
  }
  const hole = fragment === "proximal" ? holes.at(-1) : holes[0];
  return hole === undefined
    ? blank(unknown(`no screw is planned in the ${fragment} fragment`))
    : called(hole, `level of ${hole.name}`);
}
