/**
 * No review after the operation is planned.
 */
import { inAftercare } from "./aftercare-edits.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { clear, found } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "review-missing",
  title: "No review after the operation",
  why:
    "Wound, rotation and healing are seen only when the patient is seen again. " +
    "Radiographs at 2, 6 and 12 weeks are usual, then every four to six weeks until the bone has united.",
  grade: "information",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["    review at 2 weeks, 6 weeks, 12 weeks\n", ""]] },
  right: { change: [] },
  check: ({ plan, text }) => {
    if ((plan.aftercare?.reviews.length ?? 0) > 0) return clear;
    return found({
      place: plan.aftercare?.place ?? plan.title.place,
      message: "No review after the operation is planned.",
      at: "review",
      fixes: inAftercare(plan, text, "review at 2 weeks, 6 weeks, 12 weeks", "needs a choice"),
    });
  },
};
