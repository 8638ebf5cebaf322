/**
 * The first reamer head is larger than the isthmus by more than the limit.
 */
import type { ReamStep } from "../meaning/plan.ts";
import { add, compare } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import { stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { headsOf, listedHeads, rewriteHeads } from "./head-list.ts";
import { clear, judgeAtMost, judgeBounds } from "./judging.ts";
import { passing } from "./limit-words.ts";
import { isthmusPlace } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "reaming-start",
  title: "First reamer head far over the isthmus",
  why:
    "The first head has to find its way through the narrowest place and cuts all of what stands above its size at once. " +
    "It starts about as wide as the isthmus, so that the next heads follow in small steps.",
  grade: "warning",
  basis: commonPractice,
  limits: ["reaming-start-over-isthmus"],
  wrong: {
    change: [
      ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 11.5 mm"],
      ["ream 8.5 mm to 11.5 mm by 0.5 mm", "ream 8.5 mm to 12 mm by 0.5 mm"],
      ["diameter 10 mm", "diameter 11 mm"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const [ream] = stepsOf(plan, "ream");
    if (ream === undefined) return clear;
    return judgeBounds({
      value: answerOf(reckonings, "ream.start"),
      bounds: limits.get("reaming-start-over-isthmus"),
      side: "most",
      grade: "warning",
      unit: "mm",
      place: (ream.heads.sizes[0] ?? ream.heads).place,
      message: (told) => passing(told, `The first head is ${told.value} over the isthmus`),
      related: [{ place: isthmusPlace(subject), message: "The isthmus." }],
      fixes: earlierStart(subject, ream),
    });
  },
};

/** The listed heads below the first one put before it, from the largest that keeps the limit. */
function earlierStart({ plan, reckonings, limits }: Subject, ream: ReamStep): readonly Fix[] {
  const heads = headsOf(ream);
  const first = heads?.[0];
  const { most } = limits.get("reaming-start-over-isthmus");
  if (heads === undefined || first === undefined || most === undefined) return [];
  const widest = add(answerOf(reckonings, "canal.isthmus"), most);
  const before = listedHeads(plan).filter((head) => compare(head, first) < 0);
  const at = before.findLastIndex((head) => judgeAtMost(head, widest, "warning") === undefined);
  const start = before[at];
  const edits = start === undefined ? [] : rewriteHeads(plan, ream, [...before.slice(at), ...heads]);
  if (start === undefined || edits.length === 0) return [];
  return [
    {
      title: `first head ${printValue(first, "mm")} → ${printValue(start, "mm")}`,
      class: "changes a decision",
      edits,
    },
  ];
}
