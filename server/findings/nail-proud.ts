/**
 * The driving end stands above the bone when the operation is over: as it is sunk, or drawn there by backslap and compression. What
 * a later dynamisation does to it is `overinsertion-short`; the cap on it is `cap-proud`.
 */
import type { NailStep } from "../meaning/plan.ts";
import { add, constant } from "../quantity/arithmetic.ts";
import { roundUp } from "../quantity/elementary.ts";
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import { deeperBy, drawnBackBy, sinkTo } from "./driving-end.ts";
import type { Fix, Grade, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, judgeBounds, type Told } from "./judging.ts";
import { falling, isNominal } from "./limit-words.ts";
import { aboutDrawingBack } from "./places.ts";

const flush = constant(0, "mm");

export const rule: PlanRule = {
  kind: "plan",
  slug: "nail-proud",
  title: "Driving end of the nail stands proud of the bone",
  why:
    "A proud driving end rubs on the tendon and the knee and is a common reason for pain and removal. " +
    "Backslap and compression draw the nail back, so a nail that is flush when it goes in may end up proud.",
  grade: "error",
  basis: commonPractice,
  limits: ["top-below-bone"],
  wrong: { change: [["    compress 2 turns\n", "    backslap 6 mm\n    compress 2 turns\n"]] },
  right: { change: [] },
  check: (subject) => {
    const nail = nailStepOf(subject.plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    const now = stage(subject, nail, "nail.top", "");
    if (now.found.length > 0) return now;
    return stage(subject, nail, "nail.topAfter", drawnBackBy(subject.plan));
  },
};

/** `after` names what draws the nail back, "" for the nail as it is sunk. */
function stage(subject: Subject, nail: NailStep, id: string, after: string): Verdict {
  const proud = judge(subject, nail, id, { least: flush }, "error", (told) => proudWords(told, after));
  if (proud.found.length > 0 || proud.untold !== undefined) return proud;
  return judge(subject, nail, id, subject.limits.get("top-below-bone"), "warning", (told) => nearWords(told, after));
}

type Bounds = Parameters<typeof judgeBounds>[0]["bounds"];

function judge(
  subject: Subject,
  nail: NailStep,
  id: string,
  bounds: Bounds,
  grade: Grade,
  message: (told: Told) => string,
): Verdict {
  const { plan, reckonings } = subject;
  return judgeBounds({
    value: answerOf(reckonings, id),
    bounds,
    side: "least",
    grade,
    unit: "mm",
    place: (nail.sunk ?? nail).place,
    message,
    related: id === "nail.top" ? [] : aboutDrawingBack(plan),
    fixes: (told) => deeper(subject, told),
  });
}

function proudWords(told: Told, after: string): string {
  const cause = after === "" ? "" : ` after ${after}`;
  if (!told.sure && !isNominal(told)) {
    return `The driving end lies ${told.value} below the bone's surface${cause} and may stand proud of it.`;
  }
  return `The driving end ${told.may("stands", "may stand")} ${told.margin} proud of the bone${cause}.`;
}

function nearWords(told: Told, after: string): string {
  const cause = after === "" ? "" : ` after ${after}`;
  return falling(told, `The driving end lies ${told.value} below the bone's surface${cause}`);
}

/** Sunk by whole millimetres as far as the limit and the cap ask; the tip goes as much deeper. */
function deeper({ plan }: Subject, told: Told): readonly Fix[] {
  const sunk = nailStepOf(plan)?.sunk;
  if (sunk === undefined || !told.beyond.sure) return [];
  const cap = stepsOf(plan, "cap").at(-1)?.extension?.quantity ?? flush;
  const least = add(add(sunk.quantity, told.beyond.margin), cap);
  const needed = roundUp(least, constant(1, "mm"));
  return sinkTo(sunk, needed, deeperBy(sunk, needed));
}
