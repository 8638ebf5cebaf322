/**
 * A blocking screw on the convex side of the deformity as the case states it, or placed after the reaming it should steer. The side is
 * never inferred where the plane of the deformity is not stated.
 */
import type { BlockStep } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import { stepsOf } from "../reckoning/given.ts";
import { isBefore, reasonOf } from "../reckoning/order.ts";
import type { Fix, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, found, judgeAtMost, together } from "./judging.ts";
import { moveBefore } from "./line-edits.ts";
import { movable } from "./step-order-of.ts";

type Plane = "coronal" | "sagittal";

const planes: ReadonlyMap<string, Plane> = new Map([
  ["medial", "coronal"],
  ["lateral", "coronal"],
  ["anterior", "sagittal"],
  ["posterior", "sagittal"],
]);

/** The concave side of a deformity by the word for its direction. */
const concave: ReadonlyMap<string, string> = new Map([
  ["varus", "medial"],
  ["valgus", "lateral"],
  ["procurvatum", "posterior"],
  ["recurvatum", "anterior"],
]);

export const rule: PlanRule = {
  kind: "plan",
  slug: "block-side",
  title: "Blocking screw on the convex side or after reaming",
  why:
    "On the concave side of the deformity a blocking screw narrows the canal where the nail would else drift, and the nail straightens the bone. " +
    "On the convex side it keeps the deformity, and after reaming the nail follows the track that is already there.",
  grade: "warning",
  basis: {
    mark: "printed",
    text: "Krettek et al., J Bone Joint Surg Br 1999;81-B: on the concave side, in the short fragment, before reaming",
  },
  population: "21 tibiae",
  limits: [],
  wrong: {
    change: [["    wire ball-tip\n", "    wire ball-tip\n    block at 220 mm, side lateral, screw 40 mm\n"]],
  },
  right: {
    change: [["    wire ball-tip\n", "    wire ball-tip\n    block at 220 mm, side medial, screw 40 mm\n"]],
  },
  check: (subject) =>
    together(stepsOf(subject.plan, "block").flatMap((block) => [side(subject, block), late(subject, block)])),
};

function side({ plan }: Subject, block: BlockStep): Verdict {
  const said = block.side;
  const plane = said === undefined ? undefined : planes.get(said.text);
  if (said === undefined || plane === undefined) return cannotTell("the side of a blocking screw is not given");
  const alignment = plan.case?.alignment;
  const stated = alignment?.[plane];
  const wanted = concave.get(stated?.direction.text ?? "");
  if (alignment === undefined || stated === undefined || wanted === undefined) {
    return cannotTell(`the case states no ${plane} deformity, so its concave side is not known`);
  }
  const judged = judgeAtMost(stated.amount.quantity, constant(0, "deg"), "warning");
  if (judged === undefined) return cannotTell(`the ${plane} deformity is 0 deg and has no concave side`);
  if (judged.kind === "unknown") return cannotTell(judged.because);
  if (said.text === wanted) return clear;
  const angle = `${print(stated.amount.quantity, "deg")} of ${stated.direction.text}`;
  const convex = `Of ${angle} the concave side is ${wanted}; the blocking screw stands ${said.text}`;
  return found({
    place: said.place,
    message: judged.sure
      ? `${convex}, on the convex side.`
      : `${convex}, which may be the convex side (${judged.chance}).`,
    grade: judged.grade,
    at: "block",
    probability: judged.probability,
    related: [{ place: alignment.place, message: "The deformity." }],
    fixes: [
      {
        title: `blocking screw ${said.text} → ${wanted}`,
        class: "changes a decision",
        edits: [{ span: said.place.span, text: wanted }],
      },
    ],
  });
}

function late({ plan, text }: Subject, block: BlockStep): Verdict {
  const [ream] = stepsOf(plan, "ream");
  if (ream === undefined || isBefore(plan, block, ream)) return clear;
  const fix: Fix = {
    title: "blocking screw before reaming",
    class: "changes a decision",
    edits: moveBefore(text, [block.place.span], ream.place.span),
  };
  return found({
    place: block.wordPlace,
    message: `The blocking screw goes in after the reaming; it comes first, because ${reasonOf("blocking")}.`,
    at: "block",
    related: [{ place: ream.wordPlace, message: "The canal is reamed here." }],
    fixes: movable(plan, [block, ream]) ? [fix] : [],
  });
}
