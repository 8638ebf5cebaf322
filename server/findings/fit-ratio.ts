/**
 * The nail fills the canal less or more than the range of the series named. Where the last reamer head is the reason, that is told as
 * `reaming-overshoot` or `reaming-undershoot`; an unreamed nail that is too wide is `unreamed-tight`.
 */
import { compare, constant } from "../quantity/arithmetic.ts";
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { isBorrowed } from "./borrowed.ts";
import type { PlanRule, Subject } from "./finding.ts";
import { cannotTell, judgeAtLeast, judgeAtMost, judgeBounds } from "./judging.ts";
import { falling } from "./limit-words.ts";
import { isthmusPlace } from "./places.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "fit-ratio",
  title: "Nail that fills the canal too little or too much",
  why:
    "A nail thin for its canal lets the fragments move and drift; one as wide as the canal jams. " +
    "The ratio is the nail's diameter over the wider of last head and isthmus.",
  grade: "warning",
  basis: {
    mark: "printed",
    text:
      '"Size matters", series of the nail to canal ratio, J Orthop Trauma 2016: 0.80 to 0.99, outside it 4.4 times likelier not to heal; ' +
      "femur: below 0.70, J Orthop Trauma 2018, while BMC 2022 found no effect of the difference of canal and nail",
  },
  population: "78 tibial shaft fractures; the femoral series apart, and none of the humerus",
  limits: ["fit-ratio", "fit-ratio-femur"],
  wrong: {
    change: [
      ["width 12.4 mm ± 0.3 mm on ap, depth 12.2 mm ± 0.3 mm", "width 16.4 mm ± 0.3 mm on ap, depth 16.2 mm ± 0.3 mm"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const nail = nailStepOf(plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    const known = limitFor(subject);
    if (known === undefined) return cannotTell("no series of the nail to canal ratio is of the humerus");
    const elsewhere = toldElsewhere(subject);
    if (elsewhere !== undefined) return cannotTell(elsewhere);
    return judgeBounds({
      value: answerOf(reckonings, "fit.ratio"),
      bounds: limits.get(known),
      // The evidence for the femur conflicts.
      grade: known === "fit-ratio-femur" ? "information" : "warning",
      unit: "1",
      place: (nail.diameter ?? nail).place,
      message: (told) => {
        const clause = `The nail fills ${told.value} of the canal's width`;
        if (told.side === "least") return falling(told, clause);
        return told.sure
          ? `${clause}; at most ${told.limit} is wanted.`
          : `${clause}, which may pass the limit of ${told.limit}.`;
      },
      related: [{ place: isthmusPlace(subject), message: "The isthmus." }],
    });
  },
};

/** The limit of the plan's bone; undefined when none is known. */
function limitFor(subject: Subject): "fit-ratio" | "fit-ratio-femur" | undefined {
  if (!isBorrowed(subject, "fit-ratio")) return "fit-ratio";
  return subject.plan.case?.bone?.text === "femur" ? "fit-ratio-femur" : undefined;
}

/** What is found already for the same reason. */
function toldElsewhere({ plan, reckonings, limits }: Subject): string | undefined {
  if (stepsOf(plan, "ream").length === 0) {
    const tight = judgeAtMost(answerOf(reckonings, "fit.ratio"), constant(1, "1"), "error");
    return tight?.kind === "beyond" ? "the unreamed nail is wider than the isthmus" : undefined;
  }
  const [final, isthmus] = [answerOf(reckonings, "ream.final"), answerOf(reckonings, "canal.isthmus")];
  if (final.kind === "unknown" || isthmus.kind === "unknown" || compare(final, isthmus) < 0) return undefined;
  const { least, most } = limits.get("reaming-over-nail");
  const over = answerOf(reckonings, "ream.over");
  const astray = [judgeAtMost(over, most, "warning"), judgeAtLeast(over, least, "warning")];
  return astray.some((each) => each?.kind === "beyond") ? "the last head is judged against the nail first" : undefined;
}
