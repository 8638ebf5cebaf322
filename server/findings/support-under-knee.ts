/**
 * The leg is to lie on a support under the knee itself.
 */
import { stepsOf } from "../reckoning/given.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule } from "./finding.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "support-under-knee",
  title: "Support under the knee itself",
  why:
    "A bar or bolster in the hollow of the knee presses the popliteal vessels and nerves for the whole operation. " +
    "The support belongs under the distal thigh, clear of the hollow.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["support distal-thigh", "support knee"]] },
  right: { change: [] },
  check: ({ plan }) => ({
    found: stepsOf(plan, "position").flatMap(({ support }) => {
      if (support?.text !== "knee") return [];
      const fix: Fix = {
        title: "support knee → distal-thigh",
        class: "changes a decision",
        edits: [{ span: support.place.span, text: "distal-thigh" }],
      };
      return [
        {
          place: support.place,
          message:
            "A support under the knee presses the popliteal vessels and nerves; it belongs under the distal thigh.",
          at: "support",
          fixes: [fix],
        },
      ];
    }),
  }),
};
