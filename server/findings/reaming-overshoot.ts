/**
 * The last reamer head is larger than the nail by more than the limit. How the nail then fills the canal is `fit-ratio`.
 */
import type { ReamStep } from "../meaning/plan.ts";
import { add, subtract } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { headsOf, rewriteHeads } from "./head-list.ts";
import { clear, judgeBounds } from "./judging.ts";
import { passing } from "./limit-words.ts";
import { isLength, largestAtMost } from "./listed-sizes.ts";
import { aboutNail } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "reaming-overshoot",
  title: "Reamed further over the nail than the limit",
  why:
    "Every head past the size the nail needs takes cortex away and makes heat, and leaves the nail with more play in the canal. " +
    "The last head is held against the nail's diameter.",
  grade: "warning",
  basis: commonPractice,
  limits: ["reaming-over-nail"],
  wrong: { change: [["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to 12 mm by 0.5 mm"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const ream = stepsOf(plan, "ream").at(-1);
    if (ream === undefined) return clear;
    return judgeBounds({
      value: answerOf(reckonings, "ream.over"),
      bounds: limits.get("reaming-over-nail"),
      side: "most",
      grade: "warning",
      unit: "mm",
      place: ream.heads.place,
      message: (told) => passing(told, `The last head is ${told.value} larger than the nail`),
      related: aboutNail(plan, "diameter"),
      fixes: shorterList(subject, ream),
    });
  },
};

/** The list cut off at the largest of its heads that keeps the limit. */
function shorterList({ plan, limits }: Subject, ream: ReamStep): readonly Fix[] {
  const heads = headsOf(ream);
  const diameter = nailStepOf(plan)?.diameter?.quantity;
  const most = limits.get("reaming-over-nail").most;
  const last = heads?.at(-1);
  if (heads === undefined || last === undefined || !isLength(diameter) || most === undefined) return [];
  const widest = add(diameter, most);
  const head = largestAtMost(heads, widest);
  const edits = head === undefined ? [] : rewriteHeads(plan, ream, heads.slice(0, heads.indexOf(head) + 1));
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
