/**
 * A waiver of a finding that a followed protocol lets nobody waive. The finding stands as if the waiver were not there.
 */
import type { Plan, Waiver } from "../meaning/plan.ts";
import type { Found, RecordRule } from "./finding.ts";
import { neverWaived, withoutWaiver } from "./waivers.ts";
import { quoted } from "./words.ts";

export const rule: RecordRule = {
  kind: "record",
  slug: "waiver-refused",
  title: "Waiver of a finding that the protocol lets nobody waive",
  why:
    "A department keeps some findings out of the hands of a single plan: they are mended, or the protocol is changed. " +
    "Such a waiver covers nothing, and this finding of it cannot be waived either.",
  grade: "error",
  basis: { mark: "department's choice", text: "the protocol that the plan follows" },
  wrong: {
    change: [
      [
        "  status for-review\n",
        '  status for-review\n  waive infection, because "an invented reason", signed "A. Example"\n',
      ],
      ["  demand time-out, antibiotic\n", "  never-waive infection\n  demand time-out, antibiotic\n"],
    ],
  },
  right: { change: [["  demand time-out, antibiotic\n", "  never-waive infection\n  demand time-out, antibiotic\n"]] },
  check: (plan, _findings, _settled, text) => ({
    found: plan.waivers.flatMap((waiver) => refused(plan, waiver, text)),
  }),
};

function refused(plan: Plan, waiver: Waiver, text: string): readonly Found[] {
  const line = neverWaived(plan).get(waiver.finding.text);
  if (line === undefined) return [];
  return [
    {
      place: waiver.place,
      message: `The protocol lets nobody waive ${quoted(waiver.finding.text)}, so this waiver covers nothing.`,
      at: waiver.finding.text,
      related: [{ place: line.place, message: "It is kept from waivers here." }],
      fixes: [withoutWaiver(text, waiver)],
    },
  ];
}
