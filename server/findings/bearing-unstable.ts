/**
 * Full weight allowed as tolerated from the start on a pattern whose fragments do not stand on each other.
 */
import type { Aftercare, Plan } from "../meaning/plan.ts";
import { practiceAnd } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";
import { aboutFracture } from "./places.ts";
import { unstablePattern } from "./unstable-length.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "bearing-unstable",
  title: "Weight as tolerated on a pattern that does not hold its length",
  why:
    "Without contact of the fragments the whole load goes through the screws until callus carries it. " +
    "Weight as tolerated is usual where the pattern is stable and the cortices meet; a comminuted one is protected at first.",
  grade: "warning",
  basis: practiceAnd("patterns as in the AO/OTA compendium of 2018"),
  limits: [],
  wrong: {
    change: [
      ["fracture 42A2", "fracture 42B3"],
      ["weight-bearing partial 20 kg, until 6 weeks", "weight-bearing tolerated, until 6 weeks"],
    ],
  },
  right: { change: [["fracture 42A2", "fracture 42B3"]] },
  check: ({ plan }) => {
    const first = firstBearing(plan);
    if (first === undefined || first.how.text !== "tolerated") return clear;
    const pattern = unstablePattern(plan);
    if (pattern === undefined) return clear;
    if (typeof pattern !== "string") return cannotTell(pattern.because);
    return found({
      place: first.how.place,
      message: `Weight as tolerated from the start: the fragments of a ${pattern} do not share the load.`,
      at: "weight-bearing",
      related: aboutFracture(plan),
    });
  },
};

function firstBearing(plan: Plan): Aftercare["bearing"][number] | undefined {
  return plan.aftercare?.bearing[0];
}
