/**
 * Compression is planned before the nail is held as it must be: no screw at the far end, none in a slot at the driving end, or a
 * fixed screw at the driving end already. A far screw that only comes too late is `locking-order`.
 */
import type { CatalogueHole, CompressStep, LockStep, Plan } from "../meaning/plan.ts";
import { holesOf, stepsOf } from "../reckoning/given.ts";
import {
  fixedBeforeCompression,
  isBefore,
  locksAtDrivingEnd,
  locksAtFarEnd,
  reasonOf,
  standsInSlot,
} from "../reckoning/order.ts";
import { commonPractice } from "./common-practice.ts";
import { endsUntold } from "./driving-end.ts";
import type { Fix, Found, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear } from "./judging.ts";
import { moveAfter, moveBefore } from "./line-edits.ts";
import { movable } from "./step-order-of.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "compression-unprepared",
  title: "Compression on a nail that is not held for it",
  why:
    "The compression screw pulls the nail, and with it whatever is locked to the far end, against a screw in the slot at the driving end. " +
    "Without a far screw nothing is drawn, without a slot screw nothing holds against it, and a fixed screw there blocks the travel.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [
      ["    lock P1, drilled 51 mm, screw 52 mm\n", ""],
      ["    compress 2 turns\n", "    lock P1, drilled 51 mm, screw 52 mm\n    compress 2 turns\n"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const [compress] = stepsOf(plan, "compress");
    if (compress === undefined) return clear;
    const untold = endsUntold(plan);
    if (untold !== undefined) return cannotTell(untold);
    const far = farEnd(plan, compress);
    const slots = slotsOf(plan);
    if (slots.length === 0) return { found: [...far, slotless(compress)] };
    return { found: [...far, ...slot(subject, compress, slots), ...fixed(subject, compress)] };
  },
};

function farEnd(plan: Plan, compress: CompressStep): Verdict["found"] {
  if (locksAtFarEnd(plan).length > 0) return [];
  return [
    {
      place: compress.wordPlace,
      message: `Nothing locks the far end before the compression, but ${reasonOf("far-locking")}.`,
    },
  ];
}

function slotsOf(plan: Plan): readonly CatalogueHole[] {
  return holesOf(plan).filter((hole) => hole.end === "top" && hole.slot !== undefined);
}

function slotless(compress: CompressStep): Found {
  return { place: compress.wordPlace, message: "The nail has no slot at its driving end to compress in." };
}

function slot(subject: Subject, compress: CompressStep, slots: readonly CatalogueHole[]): Verdict["found"] {
  const { plan } = subject;
  const slotted = locksAtDrivingEnd(plan).filter((lock) => standsInSlot(plan, lock));
  if (slotted.some((lock) => isBefore(plan, lock, compress))) return [];
  const [late] = slotted;
  const far = locksAtFarEnd(plan);
  // When everything is locked too late, that is one mistake: `locking-order`.
  if (late !== undefined && far.length > 0 && !far.some((lock) => isBefore(plan, lock, compress))) return [];
  if (late === undefined) {
    return [
      {
        place: compress.wordPlace,
        message: `No screw stands in a slot at the driving end before the compression, but ${reasonOf("slot-screw")}.`,
        related: slots.map((hole) => ({
          place: hole.place,
          message: `Slot ${hole.name.text} as the catalogue lists it.`,
        })),
      },
    ];
  }
  const hole = late.hole.text;
  return [
    {
      place: compress.wordPlace,
      message: `The slot screw ${hole} goes in after the compression; it comes first, because ${reasonOf("slot-screw")}.`,
      at: hole,
      related: [{ place: late.wordPlace, message: `Hole ${hole} is locked here.` }],
      fixes: moved(subject, `lock ${hole} before compressing`, [late, compress], (text) =>
        moveBefore(text, [late.place.span], compress.place.span),
      ),
    },
  ];
}

function fixed(subject: Subject, compress: CompressStep): Verdict["found"] {
  const { plan } = subject;
  const [nail] = stepsOf(plan, "nail");
  // A screw before the nail itself is `step-order`.
  const early = fixedBeforeCompression(plan).filter((lock) => nail === undefined || isBefore(plan, nail, lock));
  return early.map((lock): Found => {
    const hole = lock.hole.text;
    return {
      place: lock.wordPlace,
      message: `The fixed screw ${hole} goes in before the compression; it comes after, because ${reasonOf("compression")}.`,
      at: hole,
      related: [{ place: compress.wordPlace, message: "The fracture is compressed here." }],
      fixes: compressIsLate(plan, compress)
        ? moved(subject, `compress before locking ${hole}`, [lock, compress], (text) =>
            moveBefore(text, [compress.place.span], lock.place.span),
          )
        : moved(subject, `lock ${hole} after compressing`, [lock, compress], (text) =>
            moveAfter(text, [lock.place.span], compress.place.span),
          ),
    };
  });
}

/** Behind the cap it is the compression that stands in the wrong place. */
function compressIsLate(plan: Plan, compress: CompressStep): boolean {
  return stepsOf(plan, "cap").some((cap) => !cap.none && isBefore(plan, cap, compress));
}

function moved(
  { plan, text }: Subject,
  title: string,
  steps: readonly (LockStep | CompressStep)[],
  edits: (text: string) => Fix["edits"],
): readonly Fix[] {
  return movable(plan, steps) ? [{ title, class: "changes a decision", edits: edits(text) }] : [];
}
