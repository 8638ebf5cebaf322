/**
 * Backslap or compression is planned and the far end is locked only afterwards. A far end that is never locked is
 * `compression-unprepared` where there is a compression, and is found here where there is a backslap alone.
 */
import type { BackslapStep, CompressStep, LockStep } from "../meaning/plan.ts";
import { stepsOf } from "../reckoning/given.ts";
import { isBefore, locksAtDrivingEnd, locksAtFarEnd, reasonOf, standsInSlot } from "../reckoning/order.ts";
import { commonPractice } from "./common-practice.ts";
import { endsUntold } from "./driving-end.ts";
import type { Fix, Found, PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear } from "./judging.ts";
import { moveAfter, moveBefore } from "./line-edits.ts";
import { movable } from "./step-order-of.ts";
import { listed } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "locking-order",
  title: "Far end not locked before backslap or compression",
  why:
    "Backslap and compression act through the nail on the fragment that is locked to its far end. " +
    "With that end still free the nail slides in the bone and the gap stays as it was.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [
      ["    lock D2, drilled 31 mm, screw 32 mm\n    lock D1, drilled 33 mm, screw 34 mm\n", ""],
      [
        "    lock P1, drilled 51 mm, screw 52 mm\n",
        "    lock D2, drilled 31 mm, screw 32 mm\n    lock D1, drilled 33 mm, screw 34 mm\n    lock P1, drilled 51 mm, screw 52 mm\n",
      ],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const [first] = plan.steps.filter((step) => step.kind === "compress" || step.kind === "backslap");
    if (first === undefined) return clear;
    const untold = endsUntold(plan);
    if (untold !== undefined) return cannotTell(untold);
    const far = locksAtFarEnd(plan);
    if (far.some((lock) => isBefore(plan, lock, first))) return clear;
    if (far.length > 0) return { found: [tooLate(subject, first, far)] };
    const [backslap] = stepsOf(plan, "backslap");
    const compressed = stepsOf(plan, "compress").length > 0;
    return backslap === undefined || compressed ? clear : { found: [never(backslap)] };
  },
};

function never(first: BackslapStep): Found {
  return {
    place: first.wordPlace,
    message: `Nothing locks the far end before the backslap, but ${reasonOf("far-locking")}.`,
  };
}

function tooLate(subject: Subject, first: BackslapStep | CompressStep, far: readonly LockStep[]): Found {
  const holes = listed(far.map((lock) => lock.hole.text));
  return {
    place: first.wordPlace,
    message: `The far end is locked only after the ${deed(first)}; ${holes} must go in before it, because ${reasonOf("far-locking")}.`,
    related: far.map((lock) => ({ place: lock.wordPlace, message: `Hole ${lock.hole.text} is locked here.` })),
    fixes: inOrder(subject, first, far),
  };
}

/** The far screws before it; where the slot screw comes too late as well, it goes after them all. */
function inOrder(
  { plan, text }: Subject,
  first: BackslapStep | CompressStep,
  far: readonly LockStep[],
): readonly Fix[] {
  const slots = locksAtDrivingEnd(plan).filter((lock) => standsInSlot(plan, lock));
  const lateSlot =
    first.kind === "compress" && !slots.some((lock) => isBefore(plan, lock, first)) ? slots.slice(0, 1) : [];
  const late = [...far, ...lateSlot].toSorted((a, b) => plan.steps.indexOf(a) - plan.steps.indexOf(b));
  const last = late.at(-1);
  if (last === undefined || !movable(plan, [first, ...late])) return [];
  if (lateSlot.length > 0) {
    return [
      {
        title: `${first.kind} after locking ${listed(late.map((lock) => lock.hole.text))}`,
        class: "changes a decision",
        edits: moveAfter(text, [first.place.span], last.place.span),
      },
    ];
  }
  return [
    {
      title: `lock ${listed(far.map((lock) => lock.hole.text))} before the ${deed(first)}`,
      class: "changes a decision",
      edits: moveBefore(
        text,
        far.map((lock) => lock.place.span),
        first.place.span,
      ),
    },
  ];
}

function deed(step: BackslapStep | CompressStep): string {
  return step.kind === "backslap" ? "backslap" : "compression";
}
