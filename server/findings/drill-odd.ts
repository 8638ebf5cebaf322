/**
 * The depth drilled for a screw is far from what the bone's widths predict at that level. Beyond the widths that were read the bone is
 * taken to go on as it is at the nearest, which it does not: there it is for information. A screw for the near cortex alone is drilled
 * short on purpose and left out; the screw against its own hole is `screw-overlength` and `screw-short`.
 */
import type { CatalogueHole, Typed } from "../meaning/plan.ts";
import { compare, subtract } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { holeNamed, locksOf } from "../reckoning/given.ts";
import { type Shape, shapeOf, sidesAlong, spans } from "../reckoning/profile.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { geometry } from "./common-practice.ts";
import type { PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, judgeBounds, together } from "./judging.ts";
import { passing } from "./limit-words.ts";
import { aboutHole } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "drill-odd",
  title: "Drilled depth far from the bone's predicted chord",
  why:
    "A depth that the bone cannot have at that level points to a slip: the gauge not hooked behind the cortex, the wrong hole, or a width read wrongly. " +
    "The prediction is the chord of the ellipse with the bone's width and depth there; beyond the levels at which these were read " +
    "they are held constant, and the finding is for information.",
  grade: "warning",
  basis: geometry,
  limits: ["drilled-versus-predicted"],
  wrong: { change: [["lock D2, drilled 31 mm, screw 32 mm", "lock D2, drilled 41 mm, screw 42 mm"]] },
  right: { change: [] },
  check: (subject) => {
    const bone = shapeOf(subject.plan.measures.bones, "bone");
    return together(
      locksOf(subject.plan)
        .filter((lock) => lock.grip === "both")
        .map((lock) => (lock.drilled === undefined ? clear : judged(subject, bone, lock.hole.text, lock.drilled))),
    );
  },
};

function judged({ plan, reckonings, limits }: Subject, bone: Shape, hole: string, typed: Typed): Verdict {
  const path = answerOf(reckonings, `hole.${hole}.path`);
  const drilled = typed.quantity;
  if (path.kind === "unknown") return cannotTell(path.because);
  if (drilled.kind === "unknown") return cannotTell(drilled.because);
  const deeper = compare(drilled, path) >= 0;
  const isRead = readThere(bone, holeNamed(plan, hole), answerOf(reckonings, `hole.${hole}.level`));
  const beyond = isRead ? "" : ", as far as the nearest width that was read holds there";
  return judgeBounds({
    value: deeper ? subtract(drilled, path) : subtract(path, drilled),
    bounds: limits.get("drilled-versus-predicted"),
    side: "most",
    grade: isRead ? "warning" : "information",
    unit: "mm",
    place: typed.place,
    at: hole,
    message: (told) =>
      passing(
        told,
        `Hole ${hole} is drilled ${told.value} ${deeper ? "further" : "less"} than the ${print(path, "mm")} of bone predicted there${beyond}`,
      ),
    related: [
      ...plan.measures.bones.map((bone) => ({ place: bone.place, message: "A width of the bone." })),
      ...aboutHole(plan, hole),
    ],
  });
}

/** Whether the bone was read on either side of that level, along every side the hole runs. */
function readThere(bone: Shape, hole: CatalogueHole | undefined, level: Quantity): boolean {
  return hole !== undefined && level.kind === "known" && sidesAlong(hole).every((side) => spans(bone, side, level));
}
