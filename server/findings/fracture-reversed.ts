/**
 * The fracture's far edge lies nearer than its near edge, or an edge lies outside the bone.
 */
import type { Fracture, Place, Typed } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { farJointLandmark, farJointMissing, isOtherBone, landmarkOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { geometry } from "./common-practice.ts";
import type { Fix, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, judgeBounds, together } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "fracture-reversed",
  title: "Fracture whose edges are reversed or outside the bone",
  why:
    "Levels grow from the entry point towards the far joint, so the fracture begins at the smaller one. " +
    "With the edges the wrong way round nothing can be said of a screw's distance or of the length of a fragment.",
  grade: "error",
  basis: geometry,
  limits: [],
  wrong: { change: [["from 208 mm on ap to 232 mm on ap", "from 232 mm on ap to 208 mm on ap"]] },
  right: { change: [] },
  check: (subject) => {
    const fracture = subject.plan.case?.fracture;
    if (fracture?.from === undefined || fracture.to === undefined)
      return cannotTell("the fracture's edges are not given");
    const reversed = order(subject, fracture, fracture.from, fracture.to);
    if (reversed.found.length > 0) return reversed;
    return together([reversed, before(subject, fracture.from), behind(subject, fracture.to)]);
  },
};

function order(subject: Subject, fracture: Fracture, from: Typed, to: Typed): Verdict {
  return judgeBounds({
    value: from.quantity,
    bounds: { most: to.quantity },
    side: "most",
    grade: "error",
    unit: "mm",
    place: spanning(from.place, to.place),
    message: (told) =>
      `The fracture is said to begin at ${told.value} and to end at ${told.limit}, ${told.may("which is", "which may be")} before it begins.`,
    related: [{ place: fracture.place, message: "The fracture." }],
    fixes: swapped(subject, from, to),
  });
}

function swapped({ text }: Subject, from: Typed, to: Typed): readonly Fix[] {
  const typed = (place: Place): string => text.slice(place.span.start, place.span.end);
  return [
    {
      title: `from ${typed(to.place)} to ${typed(from.place)}`,
      class: "changes a decision",
      edits: [
        { span: from.place.span, text: typed(to.place) },
        { span: to.place.span, text: typed(from.place) },
      ],
    },
  ];
}

/** The tibia's knee joint is at level 0 when it is not given. The head of another bone lies above the entry point. */
function before({ reckonings, plan }: Subject, from: Typed): Verdict {
  if (isOtherBone(plan)) return clear;
  const joint = landmarkOf(plan, "knee-joint");
  const least: Quantity = joint?.level.quantity ?? constant(0, "mm");
  return judgeBounds({
    value: answerOf(reckonings, "level.fracture.from"),
    bounds: { least },
    side: "least",
    grade: "error",
    unit: "mm",
    place: from.place,
    message: (told) =>
      `The fracture begins at ${told.value}${told.may(",", " and may begin")} above the bone's upper end.`,
    related: joint === undefined ? [] : [{ place: joint.place, message: "The knee joint." }],
  });
}

function behind({ reckonings, plan }: Subject, to: Typed): Verdict {
  const joint = farJointLandmark(plan);
  if (joint === undefined) return cannotTell(farJointMissing(plan));
  return judgeBounds({
    value: answerOf(reckonings, "level.fracture.to"),
    bounds: { most: answerOf(reckonings, `level.${joint.name.text}`) },
    side: "most",
    grade: "error",
    unit: "mm",
    place: to.place,
    message: (told) =>
      `The fracture ends at ${told.value}${told.may(",", " and may reach")} beyond the joint surface at ${told.limit}.`,
    related: [{ place: joint.place, message: "The joint surface." }],
  });
}

function spanning(from: Place, to: Place): Place {
  const start = Math.min(from.span.start, to.span.start);
  return { file: from.file, span: { start, end: Math.max(from.span.end, to.span.end) } };
}
