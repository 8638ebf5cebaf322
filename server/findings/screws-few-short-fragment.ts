/**
 * A short fragment, left by a fracture in an end segment, is held by fewer screws than the limit. Other fragments are `screws-few`.
 */
import { nailStepOf } from "../reckoning/given.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { judgeScrews, shortFragment } from "./fragment-screws.ts";
import { cannotTell, clear } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screws-few-short-fragment",
  title: "Too few locking screws in a short fragment",
  why:
    "In an end segment the canal is wide, the nail does not guide the fragment, and the screws alone hold it. " +
    "Three screws, or screws in several planes, are usual there.",
  grade: "warning",
  basis: commonPractice,
  limits: ["screws-short-fragment"],
  wrong: {
    change: [
      ["fracture 42A2, from 208 mm on ap to 232 mm on ap", "fracture 41A2, from 70 mm on ap to 88 mm on ap"],
      ["fits 42A1", "fits 41A2, 42A1"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    if (plan.case?.fracture === undefined) return cannotTell("no fracture is given");
    const nail = nailStepOf(plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    const answer = reckonings.byId.get("segment")?.answer;
    if (answer?.kind === "unknown") return cannotTell(answer.because);
    const short = shortFragment(subject);
    if (short === undefined) return clear;
    return judgeScrews(subject, nail, short, limits.get("screws-short-fragment"), `short ${short} fragment`);
  },
};
