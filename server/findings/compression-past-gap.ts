/**
 * More compression is planned than there is gap to close: the rest shortens the bone.
 */
import { constant, subtract } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { geometry } from "./common-practice.ts";
import { turnDown } from "./compression-amount.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear, judgeAtLeast, judgeBounds, type Told } from "./judging.ts";
import { isNominal } from "./limit-words.ts";

const closed = constant(0, "mm");

export const rule: PlanRule = {
  kind: "plan",
  slug: "compression-past-gap",
  title: "Compression past the closed gap",
  why:
    "Once the fragments meet, further travel drives them into each other or over each other, and the bone ends up shorter. " +
    "The gap is the one left after reduction.",
  grade: "warning",
  basis: geometry,
  limits: [],
  wrong: {
    change: [
      ["compress 2 turns", "compress 4 turns"],
      ["    cap 5 mm\n", "    cap 0 mm\n"],
    ],
  },
  right: { change: [["gap 3 mm ± 1 mm", "gap 4 mm ± 1 mm"]] },
  check: (subject) => {
    const { plan, reckonings } = subject;
    const step = stepsOf(plan, "compress").at(-1);
    if (step === undefined) return clear;
    const gap = plan.case?.fracture?.gap;
    if (gap === undefined) return cannotTell("no gap of the fracture is given");
    return judgeBounds({
      value: answerOf(reckonings, "compression.gapLeft"),
      bounds: { least: closed },
      side: "least",
      grade: "warning",
      unit: "mm",
      place: step.place,
      message: words,
      related: [{ place: gap.place, message: "The gap after reduction." }],
      fixes: toTheGap(subject, gap.quantity),
    });
  },
};

function toTheGap({ plan }: Subject, gap: Quantity): readonly Fix[] {
  if (gap.kind === "unknown") return [];
  return turnDown(
    plan,
    gap,
    (length) => `${print(length, "mm")} into a gap of ${print(gap, "mm")}`,
    (length) => judgeAtLeast(subtract(gap, length), closed, "warning") === undefined,
  );
}

function words(told: Told): string {
  if (told.sure) return `The compression goes ${told.margin} past the closed gap and shortens the bone by that much.`;
  if (isNominal(told)) return `The compression may go ${told.margin} past the closed gap and shorten the bone.`;
  return `The compression may go past the closed gap and shorten the bone; the gap left is ${told.value}.`;
}
