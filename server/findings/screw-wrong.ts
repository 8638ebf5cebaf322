/**
 * A listed screw family that the hole does not take, or that does not go with a nail of this diameter. A family that is listed nowhere
 * is `screw-unlisted`.
 */
import type { LockStep } from "../meaning/plan.ts";
import { printValue } from "../quantity/print.ts";
import { familyNamed, holeNamed, locksOf, nailStepOf } from "../reckoning/given.ts";
import type { Fix, PlanRule, Subject, Verdict } from "./finding.ts";
import { cannotTell, clear, found, together } from "./judging.ts";
import { isLength, isListed, lengthsOf } from "./listed-sizes.ts";
import { aboutHole, aboutNail } from "./places.ts";
import { familyOf } from "./screw-choice.ts";
import { listed } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screw-wrong",
  title: "Screw that does not go with its hole or nail",
  why:
    "A screw too thick does not pass the hole, one too thin rattles in it and breaks. " +
    "The catalogue lists which family each hole takes and which nail diameters a family goes with.",
  grade: "error",
  basis: { mark: "catalogue", text: "the screw families the catalogue lists for the hole and for the nail's diameter" },
  limits: [],
  wrong: {
    change: [
      ["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw stud 32 mm"],
      ["  screws peg {", "  screws stud {\n    thread 5 mm\n    lengths 24 mm to 60 mm by 2 mm\n  }\n\n  screws peg {"],
    ],
  },
  right: { change: [["drilled 31 mm, screw 32 mm", "drilled 31 mm, screw peg 32 mm"]] },
  check: (subject) => together(locksOf(subject.plan).map((lock) => checkLock(subject, lock))),
};

function checkLock(subject: Subject, lock: LockStep): Verdict {
  const { plan } = subject;
  const hole = holeNamed(plan, lock.hole.text);
  if (hole === undefined) return cannotTell(`the catalogue does not list hole ${lock.hole.text}`);
  const { family } = lock;
  const takes = hole.takes.map((each) => each.text);
  if (family !== undefined && familyNamed(plan, family.text) === undefined)
    return cannotTell(`screws ${family.text} are not listed`);
  if (family !== undefined && takes.length > 0 && !takes.includes(family.text)) {
    return found({
      place: family.place,
      message: `Hole ${lock.hole.text} takes ${listed(takes, "or")}, not ${family.text}.`,
      at: lock.hole.text,
      related: aboutHole(plan, lock.hole.text),
      fixes: takes.map((name) => instead(lock, family, name)),
    });
  }
  return withNail(subject, lock);
}

function instead(lock: LockStep, family: NonNullable<LockStep["family"]>, name: string): Fix {
  return {
    title: `screw ${family.text} → ${name}, which hole ${lock.hole.text} takes`,
    class: "needs a choice",
    edits: [{ span: family.place.span, text: name }],
  };
}

function withNail({ plan }: Subject, lock: LockStep): Verdict {
  const family = familyOf(plan, lock);
  const diameter = nailStepOf(plan)?.diameter?.quantity;
  if (family?.withDiameters === undefined) return clear;
  if (!isLength(diameter)) return cannotTell("the diameter of the nail is not given");
  const sizes = lengthsOf(family.withDiameters);
  if (sizes.length === 0 || isListed(sizes, diameter)) return clear;
  const goes = listed(sizes.map((size) => printValue(size, "mm")));
  return found({
    place: (lock.family ?? lock.screw ?? lock).place,
    message: `Screws ${family.name.text} go with nails of ${goes}, not of ${printValue(diameter, "mm")}.`,
    at: lock.hole.text,
    value: diameter,
    unit: "mm",
    related: [
      ...aboutNail(plan, "diameter"),
      { place: family.place, message: `Screws ${family.name.text} as the catalogue lists them.` },
    ],
  });
}
