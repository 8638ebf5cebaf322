/**
 * The rotation achieved differs from the other side by more than the limit. Rotation as injured is not judged.
 */
import { absolute } from "../quantity/arithmetic.ts";
import { isBorrowed, measuredOn } from "./borrowed.ts";
import type { PlanRule } from "./finding.ts";
import { clear, judgeBounds } from "./judging.ts";
import { passing } from "./limit-words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "rotation-off",
  title: "Rotation beyond the limit",
  why:
    "A leg turned in or out changes the gait and is corrected only by another operation. " +
    "Healthy legs differ too: the right tibia is about four degrees more external than the left, so the raw difference is read with care.",
  grade: "warning",
  basis: {
    mark: "printed",
    text:
      "malrotation above 10 deg: Puloski et al., J Orthop Trauma 2004; right tibiae 4 deg more external: Cain et al., J Bone Joint Surg Am " +
      "2020, doi 10.2106/jbjs.19.00731",
  },
  population:
    "154 tibiae in the second series, 36 % of them raw and 29 % corrected at 10 deg or more; for another bone a caution only",
  limits: ["rotation"],
  wrong: {
    change: [["  aftercare {\n", "  achieved {\n    alignment rotation 12 deg external\n  }\n\n  aftercare {\n"]],
  },
  right: {
    change: [["  aftercare {\n", "  achieved {\n    alignment rotation 10 deg external\n  }\n\n  aftercare {\n"]],
  },
  check: (subject) => {
    const { plan, limits } = subject;
    const rotation = plan.achieved?.alignment?.rotation;
    if (rotation === undefined) return clear;
    return judgeBounds({
      value: absolute(rotation.amount.quantity),
      bounds: limits.get("rotation"),
      side: "most",
      grade: isBorrowed(subject, "rotation") ? "information" : "warning",
      unit: "deg",
      place: rotation.amount.place,
      at: "rotation",
      message: (told) => {
        const limb = plan.case?.bone?.text === "humerus" ? "arm" : "leg";
        const clause = `The ${limb} is turned ${told.value} ${rotation.direction.text} against the other side`;
        return passing(told, clause, measuredOn(subject, "rotation"));
      },
    });
  },
};
