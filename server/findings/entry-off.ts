/**
 * The entry point lies further medial or lateral of the midline than the limit.
 */
import type { Directed } from "../meaning/plan.ts";
import { absolute, compare, constant, negate } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { stepsOf } from "../reckoning/given.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, clear, judgeBounds } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "entry-off",
  title: "Entry point off the axis of the canal",
  why:
    "The nail goes where its entry points: an entry too far medial brings valgus in a proximal fracture, and either side can hurt a meniscus or the joint surface. " +
    "The point in line with the canal lies lateral to the midline of the plateau.",
  grade: "warning",
  basis: {
    mark: "computed",
    text:
      "Tornetta et al., J Orthop Trauma 1999;13:247-251, doi 10.1097/00005131-199905000-00004: 9.1 ± 5 mm lateral to the midline of the " +
      "plateau, one standard deviation to either side",
  },
  population: "cadaver knees; others found the tubercle a poor reference (Samuelson, McPherson & Norris 2002)",
  limits: ["entry-from-midline"],
  wrong: { change: [["from-midline 8 mm lateral", "from-midline 2 mm lateral"]] },
  right: { change: [] },
  check: ({ plan, limits }) => {
    const enter = stepsOf(plan, "enter").at(-1);
    if (plan.case?.bone?.text !== "tibia") return clear;
    if (enter?.fromMidline === undefined) return cannotTell("it is not given how far from the midline the entry lies");
    const limit = limits.get("entry-from-midline");
    return judgeBounds({
      value: lateral(enter.fromMidline),
      bounds: limit,
      grade: "warning",
      unit: "mm",
      place: enter.fromMidline.amount.place,
      message: (told) => {
        const lies = `The entry lies ${sided(told.beyond.value)} of the midline`;
        const end = sided(told.beyond.limit);
        const most = told.side === "most";
        return told.sure
          ? `${lies}; ${most ? "at most" : "at least"} ${end} is wanted.`
          : `${lies}, which may be ${most ? "more" : "less"} than the ${end} wanted.`;
      },
    });
  },
};

/** Lateral counts positive. */
function lateral({ amount, direction }: Directed): Quantity {
  return direction.text === "medial" ? negate(amount.quantity) : amount.quantity;
}

/** "3 mm medial" instead of a minus. */
function sided(distance: Known): string {
  const side = compare(distance, constant(0, "mm")) < 0 ? "medial" : "lateral";
  return `${print(absolute(distance), "mm")} ${side}`;
}
