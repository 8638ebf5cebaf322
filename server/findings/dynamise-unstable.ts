/**
 * Dynamisation of a pattern whose fragments do not stand on each other. When it is done is `dynamise-early`.
 */
import { practiceAnd } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";
import { aboutFracture } from "./places.ts";
import { unstablePattern } from "./unstable-length.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "dynamise-unstable",
  title: "Dynamisation of a pattern that does not hold its length",
  why:
    "In a fragmentary wedge or a multifragmentary fracture of the shaft only the screws keep the length. " +
    "A nail set free lets the bone shorten by as much as the slot gives, unless callus already carries it.",
  grade: "warning",
  basis: practiceAnd("patterns as in the AO/OTA compendium of 2018"),
  limits: [],
  wrong: {
    change: [
      ["fracture 42A2", "fracture 42B3"],
      ["    review at 2 weeks", "    dynamise at 10 weeks, remove P1\n    review at 2 weeks"],
    ],
  },
  right: { change: [["    review at 2 weeks", "    dynamise at 10 weeks, remove P1\n    review at 2 weeks"]] },
  check: ({ plan }) => {
    const dynamise = plan.aftercare?.dynamise;
    if (dynamise === undefined) return clear;
    const pattern = unstablePattern(plan);
    if (pattern === undefined) return clear;
    if (typeof pattern !== "string") return cannotTell(pattern.because);
    return found({
      place: dynamise.place,
      message: `Dynamisation lets a ${pattern} shorten: the fragments do not hold the length.`,
      at: "dynamise",
      related: aboutFracture(plan),
    });
  },
};
