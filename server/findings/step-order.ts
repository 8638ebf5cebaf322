/**
 * Steps in an order that does not work. Far locking before backslap and compression is `locking-order`, the slot and the fixed screw
 * about a compression are `compression-unprepared`, a missing wire is `wire-missing`.
 */
import type { CheckStep, CompressStep, LockStep, NailStep, Plan, Step } from "../meaning/plan.ts";
import { ofKind, stepsOf } from "../reckoning/given.ts";
import {
  checkAfterLocking,
  checksBeforeLocking,
  firstLock,
  fixedBeforeCompression,
  isBefore,
  lastChange,
  outOfOrder,
  reasonOf,
  standsInSlot,
  stepsAfter,
} from "../reckoning/order.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, Found, PlanRule, Subject } from "./finding.ts";
import { insertAfter, insertBefore, moveAfter, moveBefore } from "./line-edits.ts";
import { movable } from "./step-order-of.ts";
import { listed } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "step-order",
  title: "Steps in an order that does not work",
  why:
    "The steps are read in the order they are done, and each prepares the next: the wire guides the reamers, the canal takes the nail, the nail takes the screws. " +
    "A step out of its place is done twice or cannot be done at all.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [
      ["    wire ball-tip\n", ""],
      ["    nail fenwick, diameter", "    wire ball-tip\n    nail fenwick, diameter"],
    ],
  },
  right: { change: [] },
  check: (subject) => ({
    found: [
      ...entryFirst(subject),
      ...wireBeforeReaming(subject),
      ...reamingBeforeNail(subject),
      ...nailBeforeLocking(subject),
      ...checkBeforeLocking(subject),
      ...capLast(subject),
      ...finalCheck(subject),
    ],
  }),
};

/** Against the wire; where there is none, against the reaming; where there is neither, against the nail. */
function entryFirst(subject: Subject): readonly Found[] {
  const [pair] = outOfOrder(subject.plan, "entry");
  if (pair === undefined) return [];
  const before = pair.later.kind === "ream" ? "reaming" : `the ${pair.later.kind}`;
  return [
    early(
      subject,
      pair.earlier,
      pair.later,
      `The bone is entered only after ${before}; the entry comes first, because ${reasonOf("entry")}.`,
    ),
  ];
}

function wireBeforeReaming(subject: Subject): readonly Found[] {
  const { plan, text } = subject;
  const [pair] = outOfOrder(plan, "wire");
  if (pair === undefined) return [];
  const { earlier: wire, later: ream } = pair;
  const found = early(
    subject,
    wire,
    ream,
    `The guide wire comes after the reaming; the wire comes first, because ${reasonOf("wire")}.`,
  );
  const [enter] = stepsOf(plan, "enter");
  // Reaming before the entry: it is the reaming that stands in the wrong place.
  if (enter === undefined || isBefore(plan, enter, ream) || !movable(plan, [wire, ream])) return [found];
  const edits = moveAfter(text, [ream.place.span], wire.place.span);
  return [{ ...found, fixes: [{ title: "ream after the wire", class: "changes a decision", edits }] }];
}

/** Told at the nail, which a fallback that only reams further leaves where it is. */
function reamingBeforeNail({ plan, text }: Subject): readonly Found[] {
  const pair = outOfOrder(plan, "reaming").at(-1);
  if (pair === undefined) return [];
  const { earlier: ream, later: nail } = pair;
  const wire = stepsOf(plan, "wire").at(-1);
  const wireToo = wire !== undefined && isBefore(plan, nail, wire);
  const fix: Fix = {
    title: wireToo ? "nail after reaming" : "ream before the nail",
    class: "changes a decision",
    edits: wireToo
      ? moveAfter(text, [nail.place.span], ream.place.span)
      : moveBefore(text, [ream.place.span], nail.place.span),
  };
  return [
    {
      place: nail.wordPlace,
      message: `The nail goes in before the reaming; the reaming comes first, because ${reasonOf("reaming")}.`,
      at: "nail",
      related: [{ place: ream.wordPlace, message: "The canal is reamed here." }],
      fixes: movable(plan, [ream, nail]) ? [fix] : [],
    },
  ];
}

function nailBeforeLocking(subject: Subject): readonly Found[] {
  const { plan } = subject;
  const [nail] = stepsOf(plan, "nail");
  const late = outOfOrder(plan, "nail").map(({ later }) => later);
  const before = ofKind(late, "lock");
  const [lock] = before;
  if (nail === undefined || lock === undefined) return [];
  return isNailLate(plan) ? [lateNail(subject, nail, lock)] : before.map((each) => earlyLock(subject, nail, each));
}

/**
 * The nail stands too late when every screw comes before it, or when the check that belongs between nail and screws comes before the
 * screws and not after the nail; else the screws before it stand too early.
 */
function isNailLate(plan: Plan): boolean {
  const [nail] = stepsOf(plan, "nail");
  const [lock] = stepsOf(plan, "lock");
  if (nail === undefined || lock === undefined || isBefore(plan, nail, lock)) return false;
  const next = firstLock(plan);
  if (next === undefined) return true;
  const checked = stepsOf(plan, "check").some((check) => isBefore(plan, check, lock));
  return checked && checksBeforeLocking(plan).length === 0;
}

function lateNail(subject: Subject, nail: NailStep, lock: LockStep): Found {
  const { plan, text } = subject;
  const found = early(
    subject,
    nail,
    lock,
    `The nail comes after its screws; the nail comes first, because ${reasonOf("nail")}.`,
  );
  const ream = plan.steps.findLast((step) => step.kind === "ream" || step.kind === "unreamed");
  if (ream === undefined || !isBefore(plan, ream, lock) || !movable(plan, [nail, ream])) return found;
  // Right behind the reaming, so that a check before locking still comes between nail and screws.
  const edits = moveAfter(text, [nail.place.span], ream.place.span);
  return { ...found, fixes: [{ title: "nail after reaming", class: "changes a decision", edits }] };
}

function earlyLock({ plan, text }: Subject, nail: NailStep, lock: LockStep): Found {
  const hole = lock.hole.text;
  const [compress] = stepsOf(plan, "compress");
  const blocks = compress !== undefined && fixedBeforeCompression(plan).includes(lock);
  const target = blocks ? compress : firstLock(plan);
  const fixes: readonly Fix[] =
    target === undefined || !movable(plan, [lock, target])
      ? []
      : [
          {
            title: blocks ? `lock ${hole} after compressing` : `lock ${hole} after the nail`,
            class: "changes a decision",
            edits: (blocks ? moveAfter : moveBefore)(text, [lock.place.span], target.place.span),
          },
        ];
  return {
    place: lock.wordPlace,
    message: `Hole ${hole} is locked before the nail is in; the nail comes first, because ${reasonOf("nail")}.`,
    at: hole,
    related: [{ place: nail.wordPlace, message: "The nail goes in here." }],
    fixes,
  };
}

/** `step` belongs before `other`: found at it, and moved there. */
function early({ plan, text }: Subject, step: Step, other: Step, message: string): Found {
  const fix: Fix = {
    title: `${step.kind} before ${other.kind}`,
    class: "changes a decision",
    edits: moveBefore(text, [step.place.span], other.place.span),
  };
  return {
    place: step.wordPlace,
    message,
    at: step.kind,
    related: [{ place: other.wordPlace, message: "It belongs before this." }],
    fixes: movable(plan, [step, other]) ? [fix] : [],
  };
}

function checkBeforeLocking({ plan, text }: Subject): readonly Found[] {
  const [nail] = stepsOf(plan, "nail");
  const lock = firstLock(plan);
  if (nail === undefined || lock === undefined || isNailLate(plan)) return [];
  const planes = checksBeforeLocking(plan).flatMap((check) => check.things.map((thing) => thing.text));
  if (planes.includes("ap") || planes.includes("lateral")) return [];
  const fix: Fix = {
    title: "put in `check ap, lateral` before locking",
    class: "changes a decision",
    edits: [insertBefore(text, lock.place.span, "check ap, lateral")],
  };
  return [
    {
      place: lock.wordPlace,
      message: `The nail is locked without a check in two planes; the check comes first, because ${reasonOf("check")}.`,
      at: "check",
      grade: "warning",
      related: [{ place: nail.wordPlace, message: "The nail goes in here." }],
      fixes: movable(plan, [lock]) ? [fix] : [],
    },
  ];
}

function capLast({ plan, text }: Subject): readonly Found[] {
  const [cap] = stepsOf(plan, "cap");
  const late = afterCap(plan);
  const last = late.at(-1);
  if (cap === undefined || last === undefined) return [];
  const names = listed(late.map((step) => (step.kind === "lock" ? step.hole.text : "the compression")));
  // Behind the final check as well, it is not the cap that stands in the wrong place.
  const lateSteps = !stepsAfter(plan, last).some((step) => step.kind === "check");
  const fix: Fix = {
    title: lateSteps
      ? `${names} before the cap`
      : `cap after ${last.kind === "lock" ? last.hole.text : "the compression"}`,
    class: "changes a decision",
    edits: lateSteps
      ? moveBefore(
          text,
          late.map((step) => step.place.span),
          cap.place.span,
        )
      : moveAfter(text, [cap.place.span], last.place.span),
  };
  return [
    {
      place: cap.wordPlace,
      message: `The cap goes in before ${names}; it comes last there, because ${reasonOf("cap")}.`,
      at: "cap",
      related: late.map((step) => ({ place: step.wordPlace, message: "It is done here." })),
      fixes: movable(plan, [cap, ...late]) ? [fix] : [],
    },
  ];
}

/** What is done at the driving end after the cap, in order, and has no finding elsewhere. */
function afterCap(plan: Plan): readonly (LockStep | CompressStep)[] {
  return outOfOrder(plan, "cap")
    .map(({ earlier }) => earlier)
    .filter(isAtDrivingEnd)
    .filter((step) => !isToldOtherwise(plan, step))
    .toSorted((a, b) => plan.steps.indexOf(a) - plan.steps.indexOf(b));
}

function isAtDrivingEnd(step: Step): step is LockStep | CompressStep {
  return step.kind === "lock" || step.kind === "compress";
}

/** A slot screw after the compression, or a compression after the fixed screw, is `compression-unprepared`. */
function isToldOtherwise(plan: Plan, step: LockStep | CompressStep): boolean {
  if (step.kind === "compress") return fixedBeforeCompression(plan).length > 0;
  return standsInSlot(plan, step) && stepsOf(plan, "compress").some((compress) => isBefore(plan, compress, step));
}

/** What has been done last must be looked at. */
function finalCheck({ plan, text }: Subject): readonly Found[] {
  const last = lastChange(plan);
  if (last === undefined || isMisplaced(plan, last)) return [];
  if (stepsAfter(plan, last).some((step) => step.kind === "check")) return [];
  const check = checkAfterLocking(plan);
  return [
    {
      place: last.wordPlace,
      message: `Nothing is checked after the last step; the final check comes last, because ${reasonOf("final-check")}.`,
      at: "check",
      grade: "warning",
      ...(check === undefined ? {} : { related: [{ place: check.wordPlace, message: "The last check stands here." }] }),
      fixes: movable(plan, check === undefined ? [last] : [last, check]) ? [atTheEnd(text, last, check)] : [],
    },
  ];
}

/** It has a finding of its own and goes back before the check. */
function isMisplaced(plan: Plan, step: Step): boolean {
  if (!isAtDrivingEnd(step)) return false;
  return isToldOtherwise(plan, step) || afterCap(plan).includes(step);
}

function atTheEnd(text: string, last: Step, check: CheckStep | undefined): Fix {
  if (check === undefined) {
    const edits = [insertAfter(text, last.place.span, "check ap, lateral, rotation")];
    return { title: "put in `check ap, lateral, rotation` at the end", class: "changes a decision", edits };
  }
  return {
    title: "the last check at the end",
    class: "changes a decision",
    edits: moveAfter(text, [check.place.span], last.place.span),
  };
}
