/**
 * A waiver without its reason or without a signature. Such a waiver covers nothing.
 */
import type { Waiver } from "../meaning/plan.ts";
import { commonPractice } from "./common-practice.ts";
import type { Found, PlanRule } from "./finding.ts";
import { lacking } from "./waivers.ts";
import { listed, quoted } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "waiver-unexplained",
  title: "Waiver without a reason or a signature",
  why:
    "Accepting a finding is a decision of a person, and the next reader needs to know whose and why. " +
    "A waiver that lacks either covers nothing.",
  grade: "warning",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [["  status for-review\n", '  status for-review\n  waive cap-missing, because "", signed "A. Example"\n']],
  },
  right: { change: [] },
  check: ({ plan }) => ({ found: plan.waivers.flatMap((waiver) => unexplained(waiver)) }),
};

function unexplained(waiver: Waiver): readonly Found[] {
  const lacks = lacking(waiver);
  if (lacks.length === 0) return [];
  return [
    {
      place: waiver.place,
      message: `The waiver of ${quoted(waiver.finding.text)} has no ${listed(lacks, "and")}, so it covers nothing.`,
      at: waiver.finding.text,
    },
  ];
}
