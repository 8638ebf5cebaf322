/**
 * The check between nail and locking is made in one plane only. That there is none at all is `step-order`.
 */
import type { CheckStep } from "../meaning/plan.ts";
import { stepsOf } from "../reckoning/given.ts";
import { checksBeforeLocking } from "../reckoning/order.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule } from "./finding.ts";
import { clear, found } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "check-one-plane",
  title: "Check in one plane only before locking",
  why:
    "A nail that looks centred from the front may lie outside the canal from the side, and locking then fixes the mistake. " +
    "Both planes are looked at before the first locking screw.",
  grade: "warning",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["    check ap, lateral\n", "    check ap\n"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const checks = checksBeforeLocking(plan);
    const seen = checks.flatMap((check) => check.things.map((thing) => thing.text));
    const [ap, lateral] = [seen.includes("ap"), seen.includes("lateral")];
    const last = checks.at(-1);
    if (last === undefined || ap === lateral) return clear;
    const missing = ap ? "lateral" : "ap";
    return found({
      place: last.place,
      message: `Before locking the nail is checked in the ${ap ? "ap" : "lateral"} plane only; ${missing} is missing.`,
      related: stepsOf(plan, "nail")
        .slice(0, 1)
        .map(({ wordPlace }) => ({ place: wordPlace, message: "The nail goes in here." })),
      fixes: asWell(last, missing),
    });
  },
};

function asWell({ things }: CheckStep, missing: string): readonly Fix[] {
  const end = things.at(-1)?.place.span.end;
  if (end === undefined) return [];
  return [
    {
      title: `check ${missing} as well`,
      class: "changes a decision",
      edits: [{ span: { start: end, end }, text: `, ${missing}` }],
    },
  ];
}
