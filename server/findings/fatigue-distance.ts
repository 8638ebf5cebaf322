/**
 * The fracture lies so near to a far hole of the nail that the nail is loaded most where it is weakest. A locked hole inside the
 * fracture is `screw-in-fracture`, one that may break out is `screw-near-fracture`.
 */
import type { CatalogueNail, Plan } from "../meaning/plan.ts";
import { compare, constant } from "../quantity/arithmetic.ts";
import type { Known } from "../quantity/quantity.ts";
import { locksOf, nailStepOf, nailUnlisted } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear, judgeAtLeast, judgeBounds } from "./judging.ts";
import { aboutFracture, aboutHole } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "fatigue-distance",
  title: "Fracture close to a far hole of the nail",
  why:
    "A hole is where a nail is weakest, and the nearer the fracture lies to it, the more the nail bends there until the bone carries again. " +
    "The distance is reckoned from the middle of the nearest far hole, locked or empty, to the nearer edge of the fracture.",
  grade: "information",
  basis: {
    mark: "printed",
    text: "Bucholz, Ross & Lawrence, J Bone Joint Surg Am 1987;69-A:1391-1399: nail at risk within 5 cm",
  },
  population: "femoral nails; for other bones a caution only",
  limits: ["fatigue-distance"],
  wrong: {
    change: [
      ["from 208 mm on ap to 232 mm on ap", "from 300 mm on ap to 322 mm on ap"],
      ["    hole D2, tip 26 mm", "    hole D2, tip 26.5 mm"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    if (plan.case?.fracture === undefined) return cannotTell("no fracture is given");
    const step = nailStepOf(plan);
    if (step === undefined) return cannotTell("no nail is planned");
    if (plan.nail === undefined) return cannotTell(nailUnlisted(plan));
    if (step.length === undefined) return cannotTell("the length of the nail is not given");
    const nearest = nearestFarHole(subject, plan.nail);
    if (nearest === undefined) return clear;
    if ("because" in nearest) return cannotTell(nearest.because);
    const { hole, distance } = nearest;
    const lock = locksOf(plan).find((each) => each.hole.text === hole);
    const inside = judgeAtLeast(distance, constant(0, "mm"), "error") !== undefined;
    if (lock !== undefined && inside) return clear;
    const most = limits.get("fatigue-distance");
    return judgeBounds({
      value: answerOf(reckonings, `hole.${hole}.toFracture`),
      bounds: most,
      side: "least",
      strict: true,
      grade: "information",
      unit: "mm",
      place: (lock?.hole ?? step.length).place,
      at: hole,
      message: (told) =>
        told.sure
          ? `Hole ${hole} lies ${told.value} from the fracture; within ${told.limit} ${atRisk(plan)}.`
          : `Hole ${hole} lies ${told.value} from the fracture, which may be within the ${told.limit} where ${atRisk(plan)}.`,
      related: [...aboutFracture(plan), ...aboutHole(plan, hole)],
    });
  },
};

function atRisk(plan: Plan): string {
  return plan.case?.bone?.text === "femur"
    ? "a nail may break at the hole"
    : "femoral nails broke at the hole; for this bone it is a caution";
}

/** The far hole of the nail that lies nearest to the fracture; undefined when the nail has none. */
function nearestFarHole(
  { reckonings }: Subject,
  nail: CatalogueNail,
): { readonly hole: string; readonly distance: Known } | { readonly because: string } | undefined {
  let nearest: { readonly hole: string; readonly distance: Known } | undefined;
  for (const { name, end } of nail.holes) {
    if (end !== "tip") continue;
    const distance = answerOf(reckonings, `hole.${name.text}.toFracture`);
    if (distance.kind === "unknown") return { because: distance.because };
    if (nearest === undefined || compare(distance, nearest.distance) < 0) nearest = { hole: name.text, distance };
  }
  return nearest;
}
