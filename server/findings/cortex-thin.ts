/**
 * Reaming leaves less cortex than the department wishes. There is no published limit, so this is information only.
 */
import { stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { PlanRule } from "./finding.ts";
import { cannotTell, clear, judgeBounds } from "./judging.ts";
import { falling } from "./limit-words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "cortex-thin",
  title: "Thin cortex left after reaming",
  why:
    "Where the final head leaves little cortex the bone is weaker and heats sooner. " +
    "It is reckoned at each level where bone and canal are given; how much is enough no one has published.",
  grade: "information",
  basis: { mark: "department's choice", text: "department's choice; no published figure was found" },
  limits: ["cortex-left"],
  wrong: { change: [["bone at 205 mm, width 26 mm on ap", "bone at 205 mm, width 19 mm on ap"]] },
  right: { change: [] },
  check: ({ plan, reckonings, limits }) => {
    const ream = stepsOf(plan, "ream").at(-1);
    if (ream === undefined) return clear;
    const { bones, canals } = plan.measures;
    if (bones.length === 0) return cannotTell("no outer width of the bone is given");
    if (canals.some((canal) => canal.width === undefined || canal.depth === undefined)) {
      return cannotTell("the canal is read in one plane only");
    }
    return judgeBounds({
      value: answerOf(reckonings, "ream.cortexLeft"),
      bounds: limits.get("cortex-left"),
      side: "least",
      grade: "information",
      unit: "mm",
      place: ream.heads.place,
      message: (told) => falling(told, `Reaming leaves ${told.value} of cortex at the thinnest`),
      related: (reckonings.byId.get("ream.cortexLeft")?.from ?? [])
        .filter((place) => place.file === plan.file)
        .slice(0, 2)
        .map((place) => ({ place, message: "It is reckoned from here." })),
    });
  },
};
