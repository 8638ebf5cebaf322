/**
 * A dynamisation that sets nothing free: no screw is left in a slot alone, or the slot has no travel left. Where the nail's end then
 * stands is `nail-proud`.
 */
import type { Aftercare, LockStep, Plan } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import { freedEnd } from "../reckoning/dynamisation.ts";
import { holeNamed, locksOf, stepsOf } from "../reckoning/given.ts";
import { standsInSlot } from "../reckoning/order.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { geometry } from "./common-practice.ts";
import { endsUntold } from "./driving-end.ts";
import type { Fix, PlanRule, Related, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, found, judgeBounds } from "./judging.ts";
import { aboutListedNail } from "./places.ts";
import { listed } from "./words.ts";

type Dynamise = NonNullable<Aftercare["dynamise"]>;

export const rule: PlanRule = {
  kind: "plan",
  slug: "dynamise-impossible",
  title: "Dynamisation that sets nothing free",
  why:
    "The nail slides only where every fixed screw of one end is out, a screw in a slot is left to guide it, and compression has not used up the slot. " +
    "Otherwise the patient has an operation that changes nothing, or an end that nothing guides.",
  grade: "error",
  basis: geometry,
  limits: [],
  wrong: { change: [["    review at 2 weeks", "    dynamise at 10 weeks, remove P2\n    review at 2 weeks"]] },
  right: { change: [["    review at 2 weeks", "    dynamise at 10 weeks, remove P1\n    review at 2 weeks"]] },
  check: (subject) => {
    const { plan } = subject;
    const dynamise = plan.aftercare?.dynamise;
    if (dynamise === undefined) return clear;
    const untold = endsUntold(plan);
    if (untold !== undefined) return cannotTell(untold);
    const astray = dynamise.remove.find(({ text }) => holeNamed(plan, text) === undefined);
    if (astray !== undefined) return cannotTell(`the catalogue does not list hole ${astray.text}`);
    return freedEnd(plan) === "neither" ? held(subject, dynamise) : travel(subject, dynamise);
  },
};

function held({ plan }: Subject, dynamise: Dynamise): Verdict {
  const slotted = remaining(plan, dynamise).filter((lock) => standsInSlot(plan, lock));
  const holding = remaining(plan, dynamise).filter((lock) =>
    slotted.some((each) => endOf(plan, each) === endOf(plan, lock) && !standsInSlot(plan, lock)),
  );
  const names = holding.map((lock) => lock.hole.text);
  return found({
    place: dynamise.place,
    message:
      names.length === 0
        ? "Dynamisation needs a screw left in a slot, and none is left in one."
        : `Dynamisation sets nothing free: ${listed(names)} still ${names.length === 1 ? "holds" : "hold"} the end with the slot.`,
    at: "dynamise",
    related: [...holding.map(lockedHere), ...aboutListedNail(plan)],
    fixes: freeing(plan, dynamise),
  });
}

function travel({ plan, reckonings }: Subject, dynamise: Dynamise): Verdict {
  const [compress] = stepsOf(plan, "compress");
  return judgeBounds({
    value: answerOf(reckonings, "dynamisation.left"),
    bounds: { least: constant(0, "mm") },
    side: "least",
    strict: true,
    grade: "error",
    unit: "mm",
    place: dynamise.place,
    at: "dynamise",
    message: (told) =>
      told.may(
        "Compression uses up the slot: no travel is left for dynamisation.",
        `Compression leaves ${told.value} of the slot, which may be no travel for dynamisation.`,
      ),
    related: compress === undefined ? [] : [{ place: compress.wordPlace, message: "The fracture is compressed here." }],
  });
}

/** At each end with a screw in a slot, the fixed screws are what has to come out. */
function freeing(plan: Plan, dynamise: Dynamise): readonly Fix[] {
  const [first] = dynamise.remove;
  const last = dynamise.remove.at(-1);
  if (first === undefined || last === undefined) return [];
  const locks = locksOf(plan);
  return (["top", "tip"] as const).flatMap((end): readonly Fix[] => {
    const here = locks.filter((lock) => endOf(plan, lock) === end);
    const fixed = here.filter((lock) => !standsInSlot(plan, lock)).map((lock) => lock.hole.text);
    if (fixed.length === 0 || fixed.length === here.length) return [];
    return [
      {
        title: `dynamise by removing ${listed(fixed)}`,
        class: "changes a decision",
        edits: [{ span: { start: first.place.span.start, end: last.place.span.end }, text: fixed.join(", ") }],
      },
    ];
  });
}

function remaining(plan: Plan, { remove }: Dynamise): readonly LockStep[] {
  const removed = new Set(remove.map(({ text }) => text));
  return locksOf(plan).filter(({ hole }) => !removed.has(hole.text));
}

function endOf(plan: Plan, lock: LockStep): "top" | "tip" | undefined {
  return holeNamed(plan, lock.hole.text)?.end;
}

function lockedHere(lock: LockStep): Related {
  return { place: lock.wordPlace, message: `Hole ${lock.hole.text} is locked here.` };
}
