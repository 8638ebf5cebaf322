/**
 * A screw or a cap that is put in and that the removal never takes out. The order of the removal is `removal-order`.
 */
import type { Removal } from "../meaning/plan.ts";
import { holeNamed, stepsOf } from "../reckoning/given.ts";
import type { Fix, Found, PlanRule, Subject } from "./finding.ts";
import { clear } from "./judging.ts";
import { insertAfter, insertBefore } from "./line-edits.ts";
import { firstOf, placedLocks, taking } from "./removal-steps.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "removal-incomplete",
  title: "Part that is put in and never taken out",
  why:
    "A screw left in the bone stops the nail or breaks the bone when the nail is drawn. " +
    "Every screw and part is counted out again.",
  grade: "error",
  basis: {
    mark: "common practice",
    text: "common practice, no single source; a bone fractured when a distal screw was left: Boerger 1999",
  },
  limits: [],
  wrong: { change: [["take D1, D2, P2", "take D1, P2"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    const { removal } = plan;
    if (removal === undefined) return clear;
    const screws = placedLocks(plan)
      .filter((lock) => taking(removal, lock.hole.text) === undefined)
      .map((lock) => left(subject, removal, lock.hole.text, lock.place));
    const cap = stepsOf(plan, "cap").find((step) => !step.none);
    const capLeft = cap !== undefined && taking(removal, "cap") === undefined;
    return { found: capLeft ? [...screws, left(subject, removal, "cap", cap.place)] : screws };
  },
};

function left(subject: Subject, removal: Removal, thing: string, putIn: Found["place"]): Found {
  const what = thing === "cap" ? "The cap" : `The screw in ${thing}`;
  return {
    place: (firstOf(removal, "withdraw") ?? removal).place,
    message: `${what} is put in, but the removal never takes it out.`,
    at: thing,
    related: [{ place: putIn, message: "It is put in here." }],
    fixes: takeToo(subject, removal, thing),
  };
}

/** The cap goes first, a far screw before the extractor, a screw at the driving end right before the nail is drawn. */
function takeToo({ plan, text }: Subject, removal: Removal, thing: string): readonly Fix[] {
  const [first] = removal.steps;
  const attach = firstOf(removal, "attach");
  const withdraw = firstOf(removal, "withdraw");
  const last = removal.steps.at(-1);
  if (first === undefined || last === undefined) return [];
  const atDrivingEnd = holeNamed(plan, thing)?.end === "top";
  const before = thing === "cap" ? first : atDrivingEnd ? withdraw : (attach ?? withdraw);
  const line = `take ${thing}`;
  const edit =
    before === undefined ? insertAfter(text, last.place.span, line) : insertBefore(text, before.place.span, line);
  return [{ title: `put in \`${line}\``, class: "changes a decision", edits: [edit] }];
}
