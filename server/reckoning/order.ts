/**
 * Which step has to be done before which, and why: the one table that the ordered list of steps and the rules about order read. What
 * is said of a broken order, and how it is mended, stands in the rules.
 */
import type { CheckStep, LockStep, Plan, Step } from "../meaning/plan.ts";
import { holeNamed, stepsOf } from "./given.ts";

export interface Precedence {
  readonly name: PrecedenceName;
  /** "the wire goes in through the entry". */
  readonly because: string;
  /** What has to be done before; empty when the plan has no such step. */
  readonly earlier: (plan: Plan) => readonly Step[];
  /** What comes after it. */
  readonly later: (plan: Plan) => readonly Step[];
  /** One of the earlier steps is enough. */
  readonly one?: true;
}

export type PrecedenceName =
  | "entry"
  | "wire"
  | "blocking"
  | "reaming"
  | "nail"
  | "check-of-nail"
  | "check"
  | "far-locking"
  | "slot-screw"
  | "compression"
  | "cap"
  | "final-check";

/** In the order of an operation. Common practice, no single source. */
export const precedences: readonly Precedence[] = [
  {
    name: "entry",
    because: "what goes into the bone goes in through the entry",
    earlier: (plan) => stepsOf(plan, "enter").slice(0, 1),
    later: (plan) => firstGiven(stepsOf(plan, "wire"), stepsOf(plan, "ream"), stepsOf(plan, "nail")),
  },
  {
    name: "wire",
    because: "reamers run over the wire",
    earlier: (plan) => stepsOf(plan, "wire").slice(0, 1),
    later: (plan) => stepsOf(plan, "ream"),
  },
  {
    name: "blocking",
    because: "a blocking screw steers the reamers",
    earlier: (plan) => stepsOf(plan, "block"),
    later: (plan) => stepsOf(plan, "ream"),
  },
  {
    name: "reaming",
    because: "the canal is reamed for the nail",
    earlier: (plan) => stepsOf(plan, "ream"),
    later: (plan) => stepsOf(plan, "nail").slice(0, 1),
  },
  {
    name: "nail",
    because: "screws lock the nail that is in",
    earlier: (plan) => stepsOf(plan, "nail").slice(0, 1),
    later: (plan) => stepsOf(plan, "lock"),
  },
  {
    name: "check-of-nail",
    because: "the check shows the nail that is in",
    earlier: (plan) => stepsOf(plan, "nail").slice(0, 1),
    later: checksBeforeLocking,
  },
  {
    name: "check",
    because: "the nail's place is checked before it is locked",
    earlier: checksBeforeLocking,
    later: (plan) => [firstLock(plan)].filter((lock) => lock !== undefined),
  },
  {
    name: "far-locking",
    because: "backslap and compression draw on the far fragment through its screws",
    earlier: locksAtFarEnd,
    later: (plan) => [...stepsOf(plan, "backslap"), ...stepsOf(plan, "compress")],
    one: true,
  },
  {
    name: "slot-screw",
    because: "compression pulls against the screw in the slot",
    earlier: (plan) => locksAtDrivingEnd(plan).filter((lock) => standsInSlot(plan, lock)),
    later: (plan) => stepsOf(plan, "compress"),
    one: true,
  },
  {
    name: "compression",
    because: "a fixed screw at the driving end would block the compression",
    earlier: (plan) => stepsOf(plan, "compress"),
    later: (plan) => locksAtDrivingEnd(plan).filter((lock) => !standsInSlot(plan, lock)),
  },
  {
    name: "cap",
    because: "the cap closes the driving end",
    earlier: (plan) => [...locksAtDrivingEnd(plan), ...stepsOf(plan, "compress")],
    later: (plan) =>
      stepsOf(plan, "cap")
        .slice(0, 1)
        .filter(({ none }) => !none),
  },
  {
    name: "final-check",
    because: "what was done last is looked at",
    earlier: (plan) => [lastChange(plan)].filter((step) => step !== undefined),
    later: (plan) => [checkAfterLocking(plan)].filter((check) => check !== undefined),
  },
];

/** Why the earlier steps come first, to follow "because". */
export function reasonOf(name: PrecedenceName): string {
  return precedences
    .filter((precedence) => precedence.name === name)
    .map(({ because }) => because)
    .join("");
}

/** The steps that come before what they need: pairs in the order of what is needed. */
export function outOfOrder(
  plan: Plan,
  name: PrecedenceName,
): readonly { readonly earlier: Step; readonly later: Step }[] {
  return precedences
    .filter((precedence) => precedence.name === name)
    .flatMap((precedence) => {
      const followers = precedence.later(plan);
      return precedence
        .earlier(plan)
        .flatMap((earlier) =>
          followers.filter((later) => isBefore(plan, later, earlier)).map((later) => ({ earlier, later })),
        );
    });
}

/** True when `step` is done before `other`. */
export function isBefore(plan: Plan, step: Step, other: Step): boolean {
  return plan.steps.indexOf(step) < plan.steps.indexOf(other);
}

/** The steps done after `step`. */
export function stepsAfter(plan: Plan, step: Step): readonly Step[] {
  return plan.steps.slice(plan.steps.indexOf(step) + 1);
}

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

/**
 * The screw that locking begins with after the nail. A fixed screw that goes in before the compression is passed over: its place has
 * a finding of its own.
 */
export function firstLock(plan: Plan): LockStep | undefined {
  const [nail] = stepsOf(plan, "nail");
  if (nail === undefined) return undefined;
  const locks = stepsOf(plan, "lock").filter((lock) => isBefore(plan, nail, lock));
  const early = new Set(fixedBeforeCompression(plan));
  return locks.find((lock) => !early.has(lock)) ?? locks[0];
}

/** The checks between the nail and the first locking screw; empty when nail or screws are missing. */
export function checksBeforeLocking(plan: Plan): readonly CheckStep[] {
  const nail = plan.steps.findIndex((step) => step.kind === "nail");
  const lock = firstLock(plan);
  if (lock === undefined) return [];
  return plan.steps.slice(nail, plan.steps.indexOf(lock)).filter((step) => step.kind === "check");
}

/** A check after the first screw was meant to be the final one. */
export function checkAfterLocking(plan: Plan): CheckStep | undefined {
  const [lock] = stepsOf(plan, "lock");
  return lock === undefined ? undefined : stepsOf(plan, "check").findLast((check) => isBefore(plan, lock, check));
}

/** Reaming and the nail in a wrong place have findings of their own. */
const changing: ReadonlySet<Step["kind"]> = new Set(["lock", "compress", "backslap", "cap"]);

/** The last step that changes what a final check would show. */
export function lastChange(plan: Plan): Step | undefined {
  return plan.steps.findLast((step) => changing.has(step.kind)) ?? stepsOf(plan, "nail")[0];
}

function firstGiven(...lists: readonly (readonly Step[])[]): readonly Step[] {
  return lists.find((list) => list.length > 0) ?? [];
}
