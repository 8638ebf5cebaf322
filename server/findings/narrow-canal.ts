/**
 * The isthmus is narrower than the limit, or a canal as narrow as the one in the series named is reamed as far as ran hot there. Of both
 * the reaming is told, being the choice.
 */
import { compare, constant } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import { isOtherBone, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { isBorrowed } from "./borrowed.ts";
import { practiceAnd } from "./common-practice.ts";
import type { PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, judgeBounds } from "./judging.ts";
import { isthmusPlace } from "./places.ts";

/** Clin Orthop Relat Res 2002, 18 patients: beyond 10 mm in an 8 mm canal significantly hotter. */
const canalOfSeries = constant(8, "mm");
const headOfSeries = constant(10, "mm");

export const rule: PlanRule = {
  kind: "plan",
  slug: "narrow-canal",
  title: "Narrow canal",
  why:
    "In a narrow canal the reamer cuts along its whole length, clears badly and heats the bone. " +
    "Small steps, sharp heads and pauses are taken, a reamer by hand first, or a thinner nail.",
  grade: "warning",
  basis: practiceAnd(
    "thermal necrosis in narrow canals: Leunig & Hertel, J Bone Joint Surg Br 1996;78-B:584; reaming beyond 10 mm in an 8 mm canal " +
      "ran significantly hotter: Clin Orthop Relat Res 2002, Temperature rise during reamed tibial nailing",
  ),
  population:
    "three patients with necrosis; 18 patients with tibial canals of 8 to 11 mm; a humerus is not judged by them",
  limits: ["narrow-canal"],
  wrong: {
    change: [
      ["width 12.4 mm ± 0.3 mm", "width 8.9 mm ± 0.3 mm"],
      ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8 mm to 9.5 mm by 0.5 mm"],
      ["diameter 10 mm", "diameter 9 mm"],
      ["ream 8.5 mm to 11.5 mm by 0.5 mm", "ream 8 mm to 9.5 mm by 0.5 mm"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const hot = reamedHot(subject);
    return hot.found.length > 0 ? hot : narrow(subject);
  },
};

function narrow(subject: Subject): Verdict {
  if (subject.plan.case?.bone?.text === "humerus" && isBorrowed(subject, "narrow-canal"))
    return cannotTell("how narrow a canal of the humerus is for reaming is not known; a protocol can say it");
  return judgeBounds({
    value: answerOf(subject.reckonings, "canal.isthmus"),
    bounds: subject.limits.get("narrow-canal"),
    side: "least",
    grade: "warning",
    unit: "mm",
    place: isthmusPlace(subject),
    at: "canal",
    message: (told) => `The isthmus is ${told.value}${told.may(",", " and may be")} narrower than ${told.limit}.`,
    related: stepsOf(subject.plan, "ream").map(({ heads }) => ({ place: heads.place, message: "It is reamed here." })),
  });
}

function reamedHot(subject: Subject): Verdict {
  const { plan, reckonings } = subject;
  const ream = stepsOf(plan, "ream").at(-1);
  const isthmus = answerOf(reckonings, "canal.isthmus");
  // The series is of tibiae.
  if (isOtherBone(plan) || ream === undefined || isthmus.kind === "unknown") return clear;
  if (compare(isthmus, canalOfSeries) > 0) return clear;
  return judgeBounds({
    value: answerOf(reckonings, "ream.final"),
    bounds: { most: headOfSeries },
    side: "most",
    grade: "warning",
    unit: "mm",
    place: ream.heads.place,
    at: "canal",
    message: (told) =>
      `A canal of ${print(canalOfSeries, "mm")} or less is reamed to ${told.value}; beyond ${told.limit} it ran hotter in a series.`,
    related: [{ place: isthmusPlace(subject), message: "The isthmus." }],
  });
}
