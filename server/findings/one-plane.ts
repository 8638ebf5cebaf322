/**
 * The canal is given in one plane only, so its narrowest place may be missed.
 */
import type { PlanRule } from "./finding.ts";
import { cannotTell } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "one-plane",
  title: "Canal read in one plane only",
  why:
    "The canal is not round: front to back it is often narrower than side to side, and that decides which nail passes. " +
    "Without both readings the isthmus reckoned can only be too wide.",
  grade: "warning",
  basis: {
    mark: "common practice",
    text:
      "common practice, no single source: measured front to back and from the side, the smaller counts; the two differ by 1.6 mm on " +
      "average in men (Nguyen 2018, 228 tibiae, computed from the printed means)",
  },
  limits: [],
  wrong: {
    change: [
      [
        "canal at 205 mm, width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm on lateral",
        "canal at 205 mm, depth 12.2 mm ± 0.3 mm on lateral",
      ],
    ],
  },
  right: { change: [] },
  check: ({ plan }) => {
    const { canals } = plan.measures;
    if (canals.length === 0) return cannotTell("the canal is not given");
    return {
      found: canals.flatMap(({ width, depth, place }) => {
        if ((width === undefined) === (depth === undefined)) return [];
        const [given, missing] = width === undefined ? ["depth", "width"] : ["width", "depth"];
        return [{ place, message: `The canal's ${given} is given here without its ${missing}.`, at: "canal" }];
      }),
    };
  },
};
