/**
 * No end cap closes the driving end.
 */
import type { Edit } from "../../grammar/problems.ts";
import { printValue } from "../quantity/print.ts";
import { nailStepOf, stepsOf } from "../reckoning/given.ts";
import { locksAtDrivingEnd } from "../reckoning/order.ts";
import { capThatFits } from "./caps.ts";
import { commonPractice } from "./common-practice.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";
import { insertAfter, insertBefore } from "./line-edits.ts";
import { taking } from "./removal-steps.ts";
import { movable } from "./step-order-of.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "cap-missing",
  title: "No end cap",
  why:
    "Bone and scar grow into an open thread, and the extractor then finds no hold when the nail has to come out. " +
    "The cap is not needed for stability.",
  grade: "information",
  basis: commonPractice,
  limits: [],
  wrong: {
    change: [
      ["    cap 5 mm\n", ""],
      ["    take cap\n", ""],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const nail = nailStepOf(plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    const cap = stepsOf(plan, "cap").at(-1);
    if (cap !== undefined && !cap.none) return clear;
    return found({
      place: cap === undefined ? nail.wordPlace : cap.place,
      message:
        cap === undefined
          ? "No end cap is planned, so bone can grow into the nail's thread."
          : "The nail is left without an end cap, so bone can grow into its thread.",
      at: "cap",
      fixes: putIn(subject),
    });
  },
};

function putIn(subject: Subject): readonly Fix[] {
  const { plan, text } = subject;
  const fits = capThatFits(subject);
  if (fits === undefined) return [];
  const line = `cap ${printValue(fits.extension, "mm")}`;
  const title = `${line}: top ${printValue(fits.top, "mm")} below the bone`;
  const none = stepsOf(plan, "cap").at(-1);
  if (none !== undefined) {
    const edits = [{ span: none.place.span, text: line }, ...takenOut(subject)];
    return [{ title, class: "changes a decision", edits }];
  }
  const last = [...locksAtDrivingEnd(plan), ...stepsOf(plan, "compress"), ...stepsOf(plan, "nail")]
    .toSorted((a, b) => plan.steps.indexOf(a) - plan.steps.indexOf(b))
    .at(-1);
  if (last === undefined || !movable(plan, [last])) return [];
  return [
    { title, class: "changes a decision", edits: [insertAfter(text, last.place.span, line), ...takenOut(subject)] },
  ];
}

/** What goes in has to come out again, where a removal is planned. */
function takenOut({ plan, text }: Subject): readonly Edit[] {
  const { removal } = plan;
  const [first] = removal?.steps ?? [];
  if (removal === undefined || first === undefined || taking(removal, "cap") !== undefined) return [];
  return [insertBefore(text, first.place.span, "take cap")];
}
