/**
 * A nail that goes in unreamed and is wider than the isthmus.
 */
import type { Typed } from "../meaning/plan.ts";
import { print, printValue } from "../quantity/print.ts";
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { geometry } from "./common-practice.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear, judgeAtMost, judgeBounds } from "./judging.ts";
import { isLength, lengthsOf } from "./listed-sizes.ts";
import { isthmusPlace } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "unreamed-tight",
  title: "Unreamed nail wider than the isthmus",
  why:
    "A nail that is not reamed for has to pass the canal as it is. " +
    "Wider than the isthmus it jams there or splits the bone when it is driven.",
  grade: "error",
  basis: geometry,
  limits: [],
  wrong: {
    change: [
      ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    unreamed\n"],
      ["diameter 10 mm", "diameter 11 mm"],
    ],
  },
  right: {
    change: [
      ["    ream 8.5 mm to 11 mm by 0.5 mm\n", "    unreamed\n"],
      ["diameter 10 mm", "diameter 9 mm"],
      ["to 11.5 mm", "to 10.5 mm"],
    ],
  },
  check: (subject) => {
    const { plan, reckonings } = subject;
    const [unreamed] = stepsOf(plan, "unreamed");
    if (unreamed === undefined) return clear;
    const diameter = nailStepOf(plan)?.diameter;
    if (diameter === undefined) return cannotTell("the diameter of the nail is not given");
    return judgeBounds({
      value: diameter.quantity,
      bounds: { most: answerOf(reckonings, "canal.isthmus") },
      side: "most",
      grade: "error",
      unit: "mm",
      place: diameter.place,
      message: (told) =>
        `The nail is ${told.value} wide and goes in unreamed; the isthmus ` +
        told.may(`is only ${told.limit}.`, `of ${told.limit} may be narrower.`),
      related: [{ place: isthmusPlace(subject), message: "The isthmus." }],
      fixes: thinner(subject, diameter),
    });
  },
};

function thinner({ plan, reckonings }: Subject, diameter: Typed): readonly Fix[] {
  const isthmus = answerOf(reckonings, "canal.isthmus");
  if (!isLength(diameter.quantity)) return [];
  const passes = lengthsOf(plan.nail?.diameters).findLast((size) => judgeAtMost(size, isthmus, "error") === undefined);
  if (passes === undefined || !isLength(isthmus)) return [];
  return [
    {
      title: `nail ${printValue(diameter.quantity, "mm")} → ${printValue(passes, "mm")}: the isthmus is ${print(isthmus, "mm")}`,
      class: "changes a decision",
      edits: [{ span: diameter.place.span, text: printValue(passes, "mm") }],
    },
  ];
}
