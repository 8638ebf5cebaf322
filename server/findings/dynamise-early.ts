/**
 * Dynamisation earlier than the limit. Whether the nail can slide at all is `dynamise-impossible`, whether the bone then keeps its
 * length `dynamise-unstable`.
 */

import type { Typed } from "../meaning/plan.ts";
import { compare } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Fix, PlanRule } from "./finding.ts";
import { cannotTell, clear, judgeBounds } from "./judging.ts";
import type { Limit } from "./limits.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "dynamise-early",
  title: "Dynamisation earlier than the limit",
  why:
    "Before callus bridges the fracture, a nail set free lets the fragments shorten and turn instead of settling on each other. " +
    "In the series named dynamisation came at 18.4 ± 7.2 weeks; six weeks is earlier than every series that was found.",
  grade: "information",
  basis: {
    mark: "department's choice",
    text: "department's choice, for comparison Pesciallo et al. 2021, doi 10.1007/s43465-021-00523-1: 18.4 ± 7.2 weeks",
  },
  population: "39 tibial nailings in the series named",
  limits: ["dynamise-from"],
  wrong: {
    change: [["    review at 2 weeks", "    dynamise at 4 weeks, remove P1\n    review at 2 weeks"]],
  },
  right: { change: [["    review at 2 weeks", "    dynamise at 10 weeks, remove P1\n    review at 2 weeks"]] },
  check: ({ plan, limits }) => {
    const dynamise = plan.aftercare?.dynamise;
    if (dynamise === undefined) return clear;
    const { at } = dynamise;
    if (at === undefined) return cannotTell("it is not given when the nail is dynamised");
    const limit = limits.get("dynamise-from");
    return judgeBounds({
      value: at.quantity,
      bounds: limit,
      side: "least",
      grade: "information",
      unit: "weeks",
      place: at.place,
      message: (told) =>
        told.sure
          ? `The nail is dynamised at ${told.value}, earlier than ${told.limit}.`
          : `The nail is dynamised at ${told.value}, which may be earlier than ${told.limit}.`,
      fixes: later(at, limit),
    });
  },
};

function later({ quantity, place }: Typed, { least }: Limit): readonly Fix[] {
  if (least === undefined || quantity.kind === "unknown" || compare(quantity, least) >= 0) return [];
  const weeks = printValue(least, "weeks");
  return [
    {
      title: `dynamise at ${printValue(quantity, "weeks")} → ${weeks}`,
      class: "changes a decision",
      edits: [{ span: place.span, text: weeks }],
    },
  ];
}
