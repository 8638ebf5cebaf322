/**
 * The nail ends too near the fracture, or a longer listed nail would fit. Where compression or dynamisation is planned the next shorter
 * length is taken on purpose and nothing is found.
 */
import type { NailStep, Typed } from "../meaning/plan.ts";
import { add, compare, constant, subtract } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { practiceAnd } from "./common-practice.ts";
import type { Fix, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, found, judgeAtLeast, judgeBounds, together } from "./judging.ts";
import { falling } from "./limit-words.ts";
import { isLength, isListed, lengthsOf } from "./listed-sizes.ts";
import { aboutFracture, aboutListedNail } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "nail-short",
  title: "Nail shorter than it could be, or ending near the fracture",
  why:
    "The longer the nail reaches beyond the fracture, the better it guides and holds the far fragment. " +
    "Between two lengths the shorter is taken, but not a shorter one still.",
  grade: "warning",
  basis: practiceAnd("how far the tip must pass the fracture is the department's choice"),
  limits: ["tip-past-fracture"],
  wrong: { change: [["length 345 mm", "length 315 mm"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const nail = nailStepOf(plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    const near = nearFracture(subject, nail);
    return near.found.length > 0 ? near : together([near, longerFits(subject)]);
  },
};

function nearFracture(subject: Subject, nail: NailStep): Verdict {
  const { plan, reckonings, limits } = subject;
  return judgeBounds({
    value: subtract(answerOf(reckonings, "nail.tip"), answerOf(reckonings, "level.fracture.to")),
    bounds: limits.get("tip-past-fracture"),
    side: "least",
    grade: "warning",
    unit: "mm",
    place: (nail.length ?? nail).place,
    message: (told) => falling(told, `The tip passes the fracture by ${told.value}${told.may(" only", "")}`),
    related: aboutFracture(plan),
    fixes: longest(subject),
  });
}

function longerFits(subject: Subject): Verdict {
  const { plan, reckonings } = subject;
  const typed = nailStepOf(plan)?.length;
  const better = answerOf(reckonings, "length.longest");
  // Every listed length too long is the nail's own finding.
  if (typed === undefined || typed.quantity.kind === "unknown")
    return cannotTell("the length of the nail is not given");
  if (better.kind === "unknown") return plan.nail === undefined ? cannotTell(better.because) : clear;
  if (!isLength(typed.quantity) || compare(typed.quantity, better) >= 0) return clear;
  const sizes = lengthsOf(plan.nail?.lengths);
  if (!isListed(sizes, typed.quantity)) return cannotTell("the length of the nail is not listed");
  // Where it is not sure that the longest one fits, the next shorter one is right.
  const room = (size: Known): Quantity => add(answerOf(reckonings, "length.margin"), subtract(better, size));
  const fitting = sizes.filter((size) => compare(size, better) <= 0);
  const sure = fitting.findLast((size) => judgeAtLeast(room(size), constant(0, "mm"), "information") === undefined);
  if (sure === undefined || compare(typed.quantity, sure) >= 0) return clear;
  if (isShorterOnPurpose(subject, typed.quantity, sure)) return clear;
  return found({
    place: typed.place,
    message: `A nail of ${printValue(sure, "mm")} fits too and leaves ${print(room(sure), "mm")} of room.`,
    grade: "information",
    value: typed.quantity,
    limit: sure,
    margin: subtract(sure, typed.quantity),
    unit: "mm",
    related: aboutListedNail(plan),
    fixes: lengthened(typed, sure, room(sure)),
  });
}

function isShorterOnPurpose({ plan }: Subject, typed: Known, better: Known): boolean {
  const moves = stepsOf(plan, "compress").length > 0 || plan.aftercare?.dynamise !== undefined;
  const between = lengthsOf(plan.nail?.lengths).filter((size) => size.value > typed.value && size.value < better.value);
  return moves && between.length === 0;
}

function longest({ plan, reckonings }: Subject): readonly Fix[] {
  const typed = nailStepOf(plan)?.length;
  const better = answerOf(reckonings, "length.longest");
  if (typed === undefined || !isLength(typed.quantity) || !isLength(better)) return [];
  if (compare(typed.quantity, better) >= 0) return [];
  return lengthened(typed, better, answerOf(reckonings, "length.margin"));
}

function lengthened(typed: Typed, to: Known, room: Quantity): readonly Fix[] {
  return [
    {
      title: `nail ${printValue(typed.quantity, "mm")} → ${printValue(to, "mm")}: ${print(room, "mm")} of room left`,
      class: "changes a decision",
      edits: [{ span: typed.place.span, text: printValue(to, "mm") }],
    },
  ];
}
