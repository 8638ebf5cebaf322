/**
 * A waiver that meets no finding. Where the waived rule could not look at all it needs, nothing is said.
 */
import type { Waiver } from "../meaning/plan.ts";
import { commonPractice } from "./common-practice.ts";
import type { Found, RecordRule } from "./finding.ts";
import { concerns, withoutWaiver } from "./waivers.ts";
import { quoted } from "./words.ts";

export const rule: RecordRule = {
  kind: "record",
  slug: "waiver-unused",
  title: "Waiver that meets no finding",
  why:
    "A waiver left behind after the plan was changed accepts in advance whatever comes back under that name. " +
    "It is taken out once it covers nothing.",
  grade: "information",
  basis: commonPractice,
  wrong: {
    change: [
      [
        "  status for-review\n",
        '  status for-review\n  waive reaming-overshoot, because "an invented reason", signed "A. Example"\n',
      ],
    ],
  },
  right: { change: [] },
  check: (plan, findings, settled, text) => ({
    found: plan.waivers
      .filter((waiver) => settled(waiver.finding.text) && !findings.some((finding) => concerns(waiver, finding)))
      .map((waiver) => unused(waiver, text)),
  }),
};

function unused(waiver: Waiver, text: string): Found {
  const at = waiver.at === undefined ? "" : ` at ${waiver.at.text}`;
  return {
    place: waiver.place,
    message: `The waiver of ${quoted(waiver.finding.text)}${at} covers nothing that was found.`,
    fixes: [withoutWaiver(text, waiver)],
  };
}
