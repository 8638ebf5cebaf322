/**
 * An open fracture and no antibiotic among the preparations. What a department demands of every plan is `demanded`.
 */
import type { Plan } from "../meaning/plan.ts";
import { stepsOf } from "../reckoning/given.ts";
import type { Fix, PlanRule } from "./finding.ts";
import { cannotTell, clear, found } from "./judging.ts";
import { insertBefore } from "./line-edits.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "antibiotic-missing",
  title: "Open fracture without an antibiotic",
  why:
    "In open fractures infection is rarer the sooner the antibiotic is given. " +
    "It belongs among the preparations, before anything else is done.",
  grade: "warning",
  basis: {
    mark: "printed",
    text:
      "Lack et al., J Orthop Trauma 2015;29:1-6, doi 10.1097/BOT.0000000000000262: odds of infection 3.78 (1.16 to 12.31) when it is " +
      "given later than 66 minutes after the injury",
  },
  limits: [],
  wrong: {
    change: [
      ["soft-tissue closed C1", "soft-tissue open II"],
      ["prepare antibiotic, time-out", "prepare time-out"],
      ["demand time-out, antibiotic", "demand time-out"],
    ],
  },
  right: { change: [["soft-tissue closed C1", "soft-tissue open II"]] },
  check: ({ plan, text }) => {
    const softTissue = plan.case?.softTissue;
    const prepares = stepsOf(plan, "prepare");
    const given = prepares.some((step) => step.things.some((thing) => thing.text === "antibiotic"));
    if (given || isDemanded(plan)) return clear;
    if (softTissue === undefined) return cannotTell("it is not said whether the fracture is open");
    if (softTissue.kind.text !== "open") return clear;
    return found({
      place: (prepares[0] ?? softTissue).place,
      message: "The fracture is open, and no antibiotic is prepared.",
      at: "antibiotic",
      related: [{ place: softTissue.place, message: "The open fracture." }],
      fixes: preparing(plan, text),
    });
  },
};

/** Then its absence is told as what the department demands, and once. */
function isDemanded(plan: Plan): boolean {
  return plan.follows.some(({ document }) => document?.demands.some((demand) => demand.text === "antibiotic"));
}

function preparing(plan: Plan, text: string): readonly Fix[] {
  const [first] = plan.steps;
  const last = stepsOf(plan, "prepare").at(-1)?.things.at(-1);
  const title = "prepare an antibiotic";
  if (last !== undefined) {
    const { end } = last.place.span;
    return [{ title, class: "changes a decision", edits: [{ span: { start: end, end }, text: ", antibiotic" }] }];
  }
  if (first === undefined) return [];
  return [{ title, class: "changes a decision", edits: [insertBefore(text, first.place.span, "prepare antibiotic")] }];
}
