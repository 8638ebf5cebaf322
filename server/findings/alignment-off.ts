/**
 * The alignment achieved lies beyond the limit of a plane, or each plane keeps its limit and the true angle behind both is larger. The
 * alignment as injured is not judged.
 */
import type { Alignment, Directed } from "../meaning/plan.ts";
import { absolute } from "../quantity/arithmetic.ts";
import { maximum } from "../quantity/elementary.ts";
import { print } from "../quantity/print.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { isBorrowed, measuredOn } from "./borrowed.ts";
import type { PlanRule, Subject, Verdict } from "./finding.ts";
import { clear, judgeBounds, together } from "./judging.ts";

type Plane = "coronal" | "sagittal";

export const rule: PlanRule = {
  kind: "plan",
  slug: "alignment-off",
  title: "Alignment beyond the limit",
  why:
    "Malalignment shifts the load at the joints, and tibiae broken in the proximal third are malaligned most often. " +
    "Each plane is held against its own limit, as the series counted; the true angle behind both views is larger and is named with it.",
  grade: "warning",
  basis: {
    mark: "printed",
    text:
      "5 deg in any plane: Freedman & Johnson, Clin Orthop 1995;315:25; 10 deg in the sagittal plane: Anneberg & Brink, Injury 2018;49 Suppl " +
      "1:S66; the two differ",
  },
  population: "133 tibial nailings, 16 of them malaligned; for another bone a caution only",
  limits: ["coronal", "sagittal"],
  wrong: {
    change: [
      [
        "  aftercare {\n",
        "  achieved {\n    alignment coronal 7 deg varus, sagittal 2 deg procurvatum\n  }\n\n  aftercare {\n",
      ],
    ],
  },
  right: {
    change: [
      [
        "  aftercare {\n",
        "  achieved {\n    alignment coronal 3 deg varus, sagittal 2 deg procurvatum\n  }\n\n  aftercare {\n",
      ],
    ],
  },
  check: (subject) => {
    const alignment = subject.plan.achieved?.alignment;
    if (alignment === undefined) return clear;
    const planes = together([
      byPlane(subject, "coronal", alignment.coronal),
      byPlane(subject, "sagittal", alignment.sagittal),
    ]);
    return planes.found.length > 0 || planes.untold !== undefined ? planes : byTrueAngle(subject, alignment);
  },
};

function byPlane(subject: Subject, plane: Plane, directed: Directed | undefined): Verdict {
  if (directed === undefined) return clear;
  const { reckonings, limits } = subject;
  const borrowed = measuredOn(subject, plane);
  const behind = answerOf(reckonings, "alignment.achieved.true");
  const also = behind.kind === "unknown" ? "" : `; the true angle is ${print(behind, "deg")}`;
  return judgeBounds({
    value: absolute(directed.amount.quantity),
    bounds: limits.get(plane),
    side: "most",
    grade: isBorrowed(subject, plane) ? "information" : "warning",
    unit: "deg",
    place: directed.amount.place,
    at: plane,
    message: (told) => {
      const there = `In the ${plane} plane there are ${told.value} of ${directed.direction.text}`;
      const limit = told.may(
        `; the limit of this plane is ${told.limit}${borrowed}`,
        `, which may pass this plane's limit of ${told.limit}${borrowed}`,
      );
      return `${there}${limit}${also}.`;
    },
  });
}

/** Each view passes; what lies behind both may not. The larger of both limits is the milder judge. */
function byTrueAngle({ reckonings, limits }: Subject, alignment: Alignment): Verdict {
  const { coronal, sagittal } = alignment;
  if (coronal === undefined || sagittal === undefined) return clear;
  const ends = [limits.get("coronal").most, limits.get("sagittal").most].filter((end) => end !== undefined);
  if (ends.length < 2) return clear;
  return judgeBounds({
    value: answerOf(reckonings, "alignment.achieved.true"),
    bounds: { most: maximum(ends) },
    side: "most",
    grade: "information",
    unit: "deg",
    place: alignment.place,
    at: "true",
    message: (told) =>
      `Each plane keeps its limit and is judged by it; the true angle behind both is ${told.value}` +
      told.may(`, above ${told.limit}.`, ` and may lie above ${told.limit}.`),
  });
}
