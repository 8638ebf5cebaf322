/**
 * A main fragment is held by fewer screws than the limit. A fragment in an end segment is judged in `screws-few-short-fragment`.
 */
import { nailStepOf } from "../reckoning/given.ts";
import { practiceAnd } from "./common-practice.ts";
import type { PlanRule } from "./finding.ts";
import { fragments, judgeScrews, shortFragment } from "./fragment-screws.ts";
import { cannotTell, together } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "screws-few",
  title: "Too few locking screws in a main fragment",
  why:
    "One screw is a hinge: the fragment tilts about it and the screw breaks early. " +
    "Two in each main fragment is usual; a department may ask for another number.",
  grade: "warning",
  basis: practiceAnd(
    "one distal screw failed in 13 of 22, two in 1 of 20: Kneifel & Buckley, Injury 1996;27:271; no difference in some patterns: Hapa 2010",
  ),
  population: "42 tibial nailings in the series named",
  limits: ["screws-per-fragment"],
  wrong: {
    change: [
      ["    lock D1, drilled 33 mm, screw 34 mm\n", ""],
      ["take D1, D2, P2", "take D2, P2"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan, limits } = subject;
    if (plan.case?.fracture === undefined) return cannotTell("no fracture is given");
    const nail = nailStepOf(plan);
    if (nail === undefined) return cannotTell("no nail is planned");
    const short = shortFragment(subject);
    const judged = fragments.filter((fragment) => fragment !== short);
    return together(
      judged.map((fragment) =>
        judgeScrews(subject, nail, fragment, limits.get("screws-per-fragment"), `${fragment} fragment`),
      ),
    );
  },
};
