/**
 * A tourniquet together with reaming in a narrow canal. The evidence is divided, so this is a caution to read.
 */
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { PlanRule } from "./finding.ts";
import { clear, judgeBounds } from "./judging.ts";
import { isthmusPlace } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "tourniquet-reaming",
  title: "Tourniquet while a narrow canal is reamed",
  why:
    "The evidence conflicts: three thermal necroses were all in narrow canals under a tourniquet, while a randomised trial and an animal study found no effect of the tourniquet. " +
    "Without blood flow the bone cannot carry heat away, so it is a caution, not a mistake.",
  grade: "information",
  basis: {
    mark: "printed",
    text:
      "Leunig & Hertel, J Bone Joint Surg Br 1996;78-B:584, doi 10.1302/0301-620x.78b4.0780584; contradicted by Giannoudis et al., J Bone " +
      "Joint Surg Br 2002;84-B, doi 10.1302/0301-620x.84b4.12563, and Karunakar et al., J Orthop Trauma 2004",
  },
  population: "three patients with necrosis; 34 patients in the trial",
  limits: ["narrow-canal"],
  wrong: {
    change: [
      ["prepare antibiotic, time-out", "prepare antibiotic, time-out, tourniquet"],
      ["width 12.4 mm ± 0.3 mm on ap", "width 8 mm"],
      ["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8 mm to 10 mm by 0.5 mm"],
      ["ream 8.5 mm to 11.5 mm by 0.5 mm", "ream 8 mm to 9.5 mm by 0.5 mm"],
      ["diameter 10 mm", "diameter 9 mm"],
    ],
  },
  right: { change: [["prepare antibiotic, time-out", "prepare antibiotic, time-out, tourniquet"]] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const tourniquet = stepsOf(plan, "prepare")
      .flatMap((step) => step.things)
      .find((thing) => thing.text === "tourniquet");
    if (tourniquet === undefined || stepsOf(plan, "ream").length === 0 || nailStepOf(plan) === undefined) return clear;
    return judgeBounds({
      value: answerOf(reckonings, "canal.isthmus"),
      bounds: limits.get("narrow-canal"),
      side: "least",
      // Three of three necroses: canals of 8 mm count as narrow here.
      strict: true,
      grade: "information",
      unit: "mm",
      place: tourniquet.place,
      at: "tourniquet",
      message: (told) =>
        `A canal of ${told.value} is reamed under a tourniquet; reports of heat damage and trials without any conflict.`,
      related: [{ place: isthmusPlace(subject), message: "The isthmus." }],
    });
  },
};
