/**
 * The removal in an order that does not work: the cap after the extractor, the extractor after the last screw at the driving end, a
 * screw after the nail is drawn out. What is never taken out at all is `removal-incomplete`.
 */
import type { Removal } from "../meaning/plan.ts";
import { holeNamed } from "../reckoning/given.ts";
import type { Fix, Found, PlanRule, Subject } from "./finding.ts";
import { clear } from "./judging.ts";
import { insertBefore, moveAfter, moveBefore } from "./line-edits.ts";
import { comesBefore, firstOf, placedLocks, type RemovalStep, type Taking, taking } from "./removal-steps.ts";
import { listed } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "removal-order",
  title: "Removal in an order that does not work",
  why:
    "The extractor screws into the thread the cap closes, and it must hold the nail before the last screw at the driving end is out, or the nail turns and sinks. " +
    "A screw left in when the nail is drawn breaks the bone.",
  grade: "error",
  basis: {
    mark: "common practice",
    text: "common practice, no single source; a bone fractured when a distal screw was left: Boerger 1999",
  },
  limits: [],
  wrong: {
    change: [
      ["    attach extractor\n", ""],
      ["    withdraw nail\n", "    attach extractor\n    withdraw nail\n"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { removal } = subject.plan;
    if (removal === undefined) return clear;
    return { found: [...capFirst(subject, removal), ...extractor(subject, removal), ...screwsOut(subject, removal)] };
  },
};

function capFirst(subject: Subject, removal: Removal): readonly Found[] {
  const cap = taking(removal, "cap");
  const attach = firstOf(removal, "attach");
  if (cap === undefined || attach === undefined || comesBefore(removal, cap.step, attach)) return [];
  const title = "take the cap before the extractor";
  return [
    {
      place: cap.said.place,
      message:
        "The extractor is attached before the cap is out; the cap comes out first, because it closes the thread " +
        "that the extractor screws into.",
      at: "cap",
      related: [{ place: attach.place, message: "The extractor is attached here." }],
      fixes: [capMoved(subject, title, cap, attach)],
    },
  ];
}

/** Alone, the cap's line is moved; in a line with others its word is taken out of it and a line of its own is put in. */
function capMoved(subject: Subject, title: string, { step, said }: Taking, before: RemovalStep): Fix {
  const at = step.things.indexOf(said);
  const [left, right] = [step.things[at - 1], step.things[at + 1]];
  // With the comma before it; the first word goes with the comma behind it.
  if (left === undefined && right === undefined) return moved(subject, title, step, before);
  const span = {
    start: left === undefined ? said.place.span.start : left.place.span.end,
    end: left === undefined && right !== undefined ? right.place.span.start : said.place.span.end,
  };
  return {
    title,
    class: "changes a decision",
    edits: [insertBefore(subject.text, before.place.span, "take cap"), { span, text: "" }],
  };
}

function extractor(subject: Subject, removal: Removal): readonly Found[] {
  const { plan, text } = subject;
  const attach = firstOf(removal, "attach");
  const withdraw = firstOf(removal, "withdraw");
  const ends = placedLocks(plan).filter((lock) => holeNamed(plan, lock.hole.text)?.end === "top");
  const takes = ends.map((lock) => taking(removal, lock.hole.text)?.step).filter((step) => step !== undefined);
  const last = takes.toSorted((a, b) => removal.steps.indexOf(a) - removal.steps.indexOf(b)).at(-1);
  if (attach === undefined) {
    if (withdraw === undefined) return [];
    const fix: Fix = {
      title: "put in `attach extractor` before the last screw at the driving end",
      class: "changes a decision",
      edits: [insertBefore(text, (last ?? withdraw).place.span, "attach extractor")],
    };
    const message = "The nail is withdrawn, but no extractor is attached to it.";
    return [{ place: withdraw.place, message, at: "extractor", fixes: [fix] }];
  }
  if (takes.length < ends.length || last === undefined || comesBefore(removal, attach, last)) return [];
  return [
    {
      place: attach.place,
      message:
        "The extractor is attached only after the last screw at the driving end is out; " +
        "it comes first, because a nail that nothing holds turns and sinks.",
      at: "extractor",
      related: [{ place: last.place, message: "The last screw at the driving end comes out here." }],
      fixes: [moved(subject, "attach the extractor before the last screw at the driving end", attach, last)],
    },
  ];
}

function screwsOut({ plan, text }: Subject, removal: Removal): readonly Found[] {
  const withdraw = firstOf(removal, "withdraw");
  if (withdraw === undefined) return [];
  const late = placedLocks(plan).flatMap(({ hole }) => {
    const take = taking(removal, hole.text);
    const isLate = take !== undefined && comesBefore(removal, withdraw, take.step);
    return isLate ? [{ hole: hole.text, place: take.said.place }] : [];
  });
  const last = removal.steps.findLast((step) => step.kind === "take");
  if (late.length === 0 || last === undefined) return [];
  const holes = listed(late.map(({ hole }) => hole));
  const fix: Fix = {
    title: `withdraw the nail after ${holes}`,
    class: "changes a decision",
    edits: moveAfter(text, [withdraw.place.span], last.place.span),
  };
  return [
    {
      place: withdraw.place,
      message: `The nail is withdrawn while ${late.length === 1 ? "the screw in" : "the screws in"} ${holes} still ${late.length === 1 ? "holds" : "hold"} it; screws come out first, because a nail drawn on its screws breaks the bone.`,
      at: "nail",
      related: late.map(({ hole, place }) => ({ place, message: `The screw in ${hole} comes out here.` })),
      fixes: [fix],
    },
  ];
}

function moved({ text }: Subject, title: string, step: RemovalStep, before: RemovalStep): Fix {
  return { title, class: "changes a decision", edits: moveBefore(text, [step.place.span], before.place.span) };
}
