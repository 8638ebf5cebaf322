/**
 * A screw whose core or drill is as thick as its thread or thicker.
 */
import type { ScrewFamily, Typed } from "../meaning/plan.ts";
import { type OwnFiguresRule, overCatalogue, ownFigures } from "./catalogue-checks.ts";
import type { Verdict } from "./finding.ts";
import { clear, judgeBounds, together } from "./judging.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "screw-diameters",
  title: "Screw whose core or drill is no thinner than its thread",
  why:
    "The thread stands out from the core and cuts into the wall that the drill left. " +
    "With a core or a drill as thick as the thread nothing would hold, so two of the figures are swapped or mistyped.",
  grade: "error",
  basis: ownFigures,
  wrong: { change: [["core 3.9 mm", "core 4.9 mm"]], of: "catalogue" },
  right: { change: [], of: "catalogue" },
  check: overCatalogue(({ screws }) =>
    together(
      screws.flatMap((family) => [thinner(family, "core", family.core), thinner(family, "drill", family.drill)]),
    ),
  ),
};

function thinner({ name, thread }: ScrewFamily, part: "core" | "drill", size: Typed | undefined): Verdict {
  if (thread === undefined || size === undefined) return clear;
  return judgeBounds({
    value: size.quantity,
    bounds: { most: thread.quantity },
    strict: true,
    grade: rule.grade,
    unit: "mm",
    place: size.place,
    at: name.text,
    related: [{ place: thread.place, message: `The thread of screw ${name.text}.` }],
    message: ({ value, limit }) =>
      `The ${part} of screw ${name.text} is ${value}; a thread of ${limit} needs a thinner one.`,
  });
}
