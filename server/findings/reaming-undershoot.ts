/**
 * The last reamer head is not larger than the nail by as much as the limit asks. An unreamed nail is judged in `unreamed-tight`.
 */
import type { ReamStep } from "../meaning/plan.ts";
import { add, subtract } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { headsOf, listedHeads, rewriteHeads } from "./head-list.ts";
import { clear, judgeBounds } from "./judging.ts";
import { falling } from "./limit-words.ts";
import { isLength, smallestAtLeast } from "./listed-sizes.ts";
import { aboutNail } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "reaming-undershoot",
  title: "Reamed less over the nail than the limit",
  why:
    "A nail driven into a canal hardly wider than itself can jam, split the cortex or open the fracture. " +
    "The last head is held against the nail's diameter.",
  grade: "warning",
  basis: commonPractice,
  limits: ["reaming-over-nail"],
  wrong: { change: [["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to 10 mm by 0.5 mm"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const ream = stepsOf(plan, "ream").at(-1);
    if (ream === undefined) return clear;
    return judgeBounds({
      value: answerOf(reckonings, "ream.over"),
      bounds: limits.get("reaming-over-nail"),
      side: "least",
      grade: "warning",
      unit: "mm",
      place: ream.heads.place,
      message: (told) => falling(told, `The last head is ${told.value} over the nail`),
      related: aboutNail(plan, "diameter"),
      fixes: longerList(subject, ream),
    });
  },
};

/** The list carried on over the listed heads up to the first that keeps the limit. */
function longerList({ plan, limits }: Subject, ream: ReamStep): readonly Fix[] {
  const heads = headsOf(ream);
  const diameter = nailStepOf(plan)?.diameter?.quantity;
  const { least } = limits.get("reaming-over-nail");
  const last = heads?.at(-1);
  if (heads === undefined || last === undefined || !isLength(diameter) || least === undefined) return [];
  const narrowest = add(diameter, least);
  const further = listedHeads(plan).filter((head) => head.value > last.value);
  const head = smallestAtLeast(further, narrowest);
  const edits =
    head === undefined ? [] : rewriteHeads(plan, ream, [...heads, ...further.slice(0, further.indexOf(head) + 1)]);
  if (head === undefined || edits.length === 0) return [];
  const over = print(subtract(head, diameter), "mm");
  return [
    {
      title: `last head ${printValue(last, "mm")} → ${printValue(head, "mm")}: ${over} over the nail`,
      class: "changes a decision",
      edits,
    },
  ];
}
