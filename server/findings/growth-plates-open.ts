/**
 * A nail through growth plates that have not closed.
 */
import { nailStepOf } from "../reckoning/given.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "growth-plates-open",
  title: "Nail through open growth plates",
  why:
    "A rigid nail enters through the proximal growth plate and its tip can reach the distal one. " +
    "Where growth is not finished this can stop it or bend it.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["growth-plates closed", "growth-plates open"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const state = plan.case?.growthPlates;
    const nail = nailStepOf(plan);
    if (nail === undefined) return clear;
    if (state === undefined) return cannotTell("it is not said whether the growth plates have closed");
    if (state.text !== "open") return clear;
    return found({
      place: state.place,
      message: "The growth plates are open, and the nail passes through them.",
      at: "growth-plates",
      related: [{ place: nail.place, message: "The nail." }],
    });
  },
};
