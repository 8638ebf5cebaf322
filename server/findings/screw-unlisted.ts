/**
 * A screw family or a screw length that no catalogue the plan reads lists. A family that is listed and does not go into the hole is
 * `screw-wrong`.
 */
import type { LockStep, Plan, Said, Typed } from "../meaning/plan.ts";
import { printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { familyNamed, holeNamed, stepsOf } from "../reckoning/given.ts";
import type { Fix, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, found, together } from "./judging.ts";
import { isLength, isListed, neighbours } from "./listed-sizes.ts";
import { aboutHole } from "./places.ts";
import { bestScrew, familyOf, listedScrews } from "./screw-choice.ts";
import { quoted } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screw-unlisted",
  title: "Screw or length that the catalogue does not list",
  why:
    "A length between two listed ones is not on the tray, and the choice is then made in a hurry. " +
    "Each screw is looked up in the family its hole takes.",
  grade: "error",
  basis: { mark: "catalogue", text: "the screw families and lengths listed in the catalogues that the plan reads" },
  limits: [],
  wrong: { change: [["screw 52 mm", "screw 53 mm"]] },
  right: { change: [] },
  check: (subject) => together(stepsOf(subject.plan, "lock").map((lock) => checkLock(subject, lock))),
};

function checkLock(subject: Subject, lock: LockStep): Verdict {
  const { plan } = subject;
  const { family, screw, hole } = lock;
  if (plan.screwFamilies.length === 0) return cannotTell("no catalogue that was read lists screws");
  if (family !== undefined && familyNamed(plan, family.text) === undefined) return unknownFamily(plan, family, hole);
  if (screw === undefined) return cannotTell(`the length of the screw in hole ${hole.text} is not given`);
  const lengths = listedScrews(plan, lock);
  if (lengths.length === 0) return cannotTell(`it is not known which screws hole ${hole.text} takes`);
  if (!isLength(screw.quantity)) return cannotTell(`the length of the screw in hole ${hole.text} is unknown`);
  if (isListed(lengths, screw.quantity)) return clear;
  const name = familyOf(plan, lock)?.name.text;
  const whose = name === undefined ? "of the screws this hole takes" : `of ${name}`;
  return found({
    place: screw.place,
    message: `The catalogue lists no length ${printValue(screw.quantity, "mm")} ${whose}.`,
    at: hole.text,
    value: screw.quantity,
    unit: "mm",
    related: aboutHole(plan, hole.text),
    fixes: otherLengths(subject, lock, screw, screw.quantity),
  });
}

/** The length the reckoning holds best, else the listed ones on either side. */
function otherLengths(subject: Subject, lock: LockStep, screw: Typed, now: Known): readonly Fix[] {
  const best = bestScrew(subject, lock);
  if (best.length > 0) return best;
  const typed = printValue(now, "mm");
  return neighbours(listedScrews(subject.plan, lock), now).map((length) => ({
    title: `screw ${typed} → ${printValue(length, "mm")}, as listed`,
    class: "needs a choice",
    edits: [{ span: screw.place.span, text: printValue(length, "mm") }],
  }));
}

function unknownFamily(plan: Plan, family: Said, hole: Said): Verdict {
  const takes = holeNamed(plan, hole.text)?.takes ?? [];
  return found({
    place: family.place,
    message: `No catalogue that the plan reads lists screws called ${quoted(family.text)}.`,
    at: hole.text,
    related: aboutHole(plan, hole.text),
    fixes: takes.map((each) => ({
      title: `screw ${family.text} → ${each.text}, which hole ${hole.text} takes`,
      class: "needs a choice",
      edits: [{ span: family.place.span, text: each.text }],
    })),
  });
}
