/**
 * The difference of diastolic and compartment pressure lies below the limit. That nothing is watched at all is
 * `compartment-watch`.
 */
import type { Aftercare } from "../meaning/plan.ts";
import { subtract } from "../quantity/arithmetic.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { measuredOn } from "./borrowed.ts";
import type { PlanRule, Subject, Verdict } from "./finding.ts";
import { clear, found, judgeBounds, together } from "./judging.ts";

type Watch = Aftercare["watches"][number];

export const rule: PlanRule = {
  kind: "plan",
  slug: "compartment-low",
  title: "Compartment pressure close to the diastolic pressure",
  why:
    "Muscle is no longer perfused when the pressure around it comes near the diastolic pressure. " +
    "The difference is held against the limit, not the compartment pressure alone, which would open many legs needlessly.",
  grade: "warning",
  basis: {
    mark: "printed",
    text: "McQueen & Court-Brown, J Bone Joint Surg Br 1996;78-B:99-104: fasciotomy when the difference is below 30 mmHg",
  },
  population: "116 patients with tibial shaft fractures, three of them with the syndrome",
  limits: ["compartment-gradient"],
  wrong: { change: [["diastolic 72 mmHg", "diastolic 52 mmHg"]] },
  right: { change: [] },
  check: (subject) => {
    const watches = subject.plan.aftercare?.watches ?? [];
    return together(watches.map((watch) => checkWatch(subject, watch, watches.length === 1)));
  },
};

function checkWatch(subject: Subject, watch: Watch, only: boolean): Verdict {
  const { reckonings, limits } = subject;
  const { diastolic, pressure } = watch;
  if (diastolic === undefined && pressure === undefined) return clear;
  if (diastolic === undefined || pressure === undefined) return half(watch);
  return judgeBounds({
    value: only ? answerOf(reckonings, "compartment.gradient") : subtract(diastolic.quantity, pressure.quantity),
    bounds: limits.get("compartment-gradient"),
    side: "least",
    grade: "warning",
    unit: "mmHg",
    place: watch.place,
    at: watch.what.text,
    message: (told) =>
      `The difference to the diastolic pressure is ${told.value}${told.may(",", " and may lie")} below ${told.limit}${measuredOn(subject, "compartment-gradient")}.`,
  });
}

/** One pressure without the other tells nothing. */
function half(watch: Watch): Verdict {
  const [given, missing] = watch.diastolic === undefined ? ["compartment", "diastolic"] : ["diastolic", "compartment"];
  return found({
    place: watch.place,
    grade: "error",
    message: `The ${given} pressure is given without the ${missing} pressure, so the difference cannot be judged.`,
    at: watch.what.text,
  });
}
