/**
 * A nail planned into a bone or through soft tissue said to be infected.
 */
import { nailStepOf } from "../reckoning/given.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { clear } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "infection",
  title: "Nail planned where there is infection",
  why:
    "A nail carries an infection along the whole canal and keeps it there as long as it stays in. " +
    "Whether another fixation comes first is decided before the nail, and the reason belongs into the plan.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["    soft-tissue closed C1\n", "    soft-tissue closed C1\n    concern infection\n"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const nail = nailStepOf(plan);
    const concerns = (plan.case?.concerns ?? []).filter((concern) => concern.text === "infection");
    if (nail === undefined || concerns.length === 0) return clear;
    return {
      found: concerns.map((concern) => ({
        place: concern.place,
        message: "Infection is a concern, and a nail is planned.",
        at: "infection",
        related: [{ place: nail.place, message: "The nail." }],
      })),
    };
  },
};
