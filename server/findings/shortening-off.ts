/**
 * The shortening achieved lies beyond the limit. What compression will cost in length is `compression-past-gap`.
 */
import { answerOf } from "../reckoning/reckon.ts";
import { isBorrowed, measuredOn } from "./borrowed.ts";
import type { PlanRule } from "./finding.ts";
import { clear, judgeBounds } from "./judging.ts";
import { passing } from "./limit-words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "shortening-off",
  title: "Shortening beyond the limit",
  why:
    "A leg more than a centimetre short is felt in walking and in the back. " +
    "It is reckoned from what was achieved, not from the injury.",
  grade: "warning",
  basis: { mark: "printed", text: "shortening less than 10 mm: Anneberg & Brink, Injury 2018;49 Suppl 1:S66" },
  population: "tibial shaft fractures; for another bone a caution only",
  limits: ["shortening"],
  wrong: { change: [["  aftercare {\n", "  achieved {\n    alignment short 12 mm\n  }\n\n  aftercare {\n"]] },
  right: { change: [["  aftercare {\n", "  achieved {\n    alignment short 4 mm\n  }\n\n  aftercare {\n"]] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const length = plan.achieved?.alignment?.length;
    if (length === undefined) return clear;
    return judgeBounds({
      value: answerOf(reckonings, "alignment.achieved.shortening"),
      bounds: limits.get("shortening"),
      side: "most",
      grade: isBorrowed(subject, "shortening") ? "information" : "warning",
      unit: "mm",
      place: length.amount.place,
      at: "short",
      message: (told) => passing(told, `The bone is ${told.value} short`, measuredOn(subject, "shortening")),
    });
  },
};
