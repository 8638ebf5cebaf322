/**
 * A closed fracture of the tibial shaft and no watch of the compartments. What was measured is judged in `compartment-low`.
 */

import { inAftercare } from "./aftercare-edits.ts";
import { commonPractice } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { readCode } from "./fracture-code.ts";
import { cannotTell, clear, found } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "compartment-watch",
  title: "Closed fracture of the tibial shaft without a watch of the compartments",
  why:
    "In a closed leg the swelling has nowhere to go, and the syndrome may come after the nail as well as before it. " +
    "The compartments are watched for a day or longer, more often in the young, the crushed and the unconscious.",
  grade: "information",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["    watch compartment, diastolic 72 mmHg, pressure 28 mmHg\n", ""]] },
  right: { change: [] },
  check: ({ plan, text }) => {
    const code = plan.case?.fracture?.code;
    const softTissue = plan.case?.softTissue;
    const watched = plan.aftercare?.watches.some((watch) => watch.what.text === "compartment") ?? false;
    if (plan.case?.bone?.text !== "tibia" || watched) return clear;
    if (code === undefined) return cannotTell("the fracture has no code");
    if (softTissue === undefined) return cannotTell("it is not said whether the fracture is closed");
    if (readCode(code.text)?.segment !== "42" || softTissue.kind.text !== "closed") return clear;
    return found({
      place: plan.aftercare?.place ?? softTissue.place,
      message: "A closed fracture of the tibial shaft, and the compartments are not watched.",
      at: "compartment",
      related: [{ place: softTissue.place, message: "The closed fracture." }],
      fixes: inAftercare(plan, text, "watch compartment"),
    });
  },
};
