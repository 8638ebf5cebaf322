/**
 * The end cap stands above the bone. When the driving end itself does, that is `nail-proud` and the cap is not judged.
 */
import { constant } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import { stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import { capThatFits } from "./caps.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear, judgeAtLeast, judgeBounds } from "./judging.ts";
import { isNominal } from "./limit-words.ts";
import { isLength } from "./listed-sizes.ts";
import { aboutNail } from "./places.ts";

const flush = constant(0, "mm");

export const rule: PlanRule = {
  kind: "plan",
  slug: "cap-proud",
  title: "End cap stands proud of the bone",
  why:
    "The cap makes the nail longer at the driving end, where a few millimetres press on the tendon and the knee. " +
    "It is reckoned from where the driving end lies after backslap and compression.",
  grade: "error",
  basis: commonPractice,
  limits: [],
  wrong: { change: [["    cap 5 mm\n", "    cap 10 mm\n"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings } = subject;
    const cap = stepsOf(plan, "cap").at(-1);
    if (cap === undefined || cap.none) return clear;
    const nail = judgeAtLeast(answerOf(reckonings, "nail.topAfter"), flush, "error");
    if (nail?.kind === "beyond" && nail.sure) return cannotTell("the driving end itself stands proud");
    return judgeBounds({
      value: answerOf(reckonings, "cap.top"),
      bounds: { least: flush },
      side: "least",
      grade: "error",
      unit: "mm",
      place: (cap.extension ?? cap).place,
      message: (told) =>
        told.sure || isNominal(told)
          ? `The cap ${told.may("stands", "may stand")} ${told.margin} proud of the bone.`
          : `The cap ends ${told.value} below the bone's surface and may stand proud of it.`,
      related: aboutNail(plan, "sunk"),
      fixes: shorterCap(subject),
    });
  },
};

function shorterCap(subject: Subject): readonly Fix[] {
  const { plan } = subject;
  const typed = stepsOf(plan, "cap").at(-1)?.extension;
  const cap = capThatFits(subject);
  if (typed === undefined || cap === undefined || !isLength(typed.quantity)) return [];
  return [
    {
      title: `cap ${printValue(typed.quantity, "mm")} → ${printValue(cap.extension, "mm")}: top ${printValue(cap.top, "mm")} below the bone`,
      class: "changes a decision",
      edits: [{ span: typed.place.span, text: printValue(cap.extension, "mm") }],
    },
  ];
}
