/**
 * The bending stress of a locking screw under the load that the after-care allows, as a teaching estimate between two bounds, against
 * the yield of the nail's material. How long a screw bears a load that does not bend it is not reckoned.
 */
import type { LockStep, Plan } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { locksOf, nailUnlisted } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { PlanRule, Related, Subject, Verdict } from "./finding.ts";
import { cannotTell, judgeAtMost, judgeBounds, together } from "./judging.ts";

interface Yield {
  readonly stress: Known;
  readonly of: string;
}

/**
 * Yields by the catalogue's word for the material, both printed minima: Ti-6Al-4V ELI 795 MPa in ASTM F136, 316L cold-worked
 * 690 MPa in ASTM F138. Annealed 316L yields from 172 MPa on (ASTM F139-86) and is no screw's.
 */
const yields: ReadonlyMap<string, Yield> = new Map([
  ["titanium-alloy", { stress: constant(795, "MPa"), of: "titanium alloy" }],
  ["steel", { stress: constant(690, "MPa"), of: "cold-worked steel" }],
]);

export const rule: PlanRule = {
  kind: "plan",
  slug: "screw-stress",
  title: "Locking screw bent past its yield by the load allowed",
  why:
    "A screw crosses the canal as a beam with the nail's load in its middle, and past its yield it stays bent. " +
    "The estimate is for teaching: screws of the nail's material share the load of their end, without contact of the bone; when only the upper bound passes the yield, the bound decides.",
  grade: "warning",
  basis: {
    mark: "computed",
    text:
      "beam with a central load (Roark, Young), simple and fixed ends as bounds; least yields as printed: " +
      "795 MPa Ti-6Al-4V ELI (ASTM F136), 690 MPa 316L cold-worked (ASTM F138)",
  },
  limits: [],
  wrong: {
    change: [
      ["    core 3.9 mm\n", "    core 2.2 mm\n"],
      ["weight-bearing partial 20 kg, until 6 weeks", "weight-bearing tolerated, until 6 weeks"],
      ["  grade cap-missing warning\n", "  grade cap-missing warning\n  grade gap-strain off\n"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan } = subject;
    if (plan.nail === undefined) return cannotTell(nailUnlisted(plan));
    const { material } = plan.nail;
    if (material === undefined) return cannotTell(`nail ${plan.nail.name.text} lists no material`);
    const limit = yields.get(material.text);
    if (limit === undefined) return cannotTell(`the yield of ${material.text} is not known here`);
    return together(locksOf(plan).map((lock) => judged(subject, lock, limit)));
  },
};

function judged({ plan, reckonings }: Subject, lock: LockStep, { stress, of }: Yield): Verdict {
  const hole = lock.hole.text;
  const ids = { least: `screw.${hole}.stress.least`, most: `screw.${hole}.stress.most` };
  if (!reckonings.byId.has(ids.least)) return cannotTell(`in which fragment the screw in ${hole} holds is not known`);
  const least = answerOf(reckonings, ids.least);
  const common = {
    bounds: { most: stress },
    side: "most",
    unit: "MPa",
    place: lock.wordPlace,
    at: hole,
    related: aboutScrew(plan),
  } as const;
  if (judgeAtMost(least, stress, "warning") !== undefined) {
    return judgeBounds({
      ...common,
      value: least,
      grade: "warning",
      message: (told) =>
        `By a teaching estimate the screw in ${hole} is bent with ${told.value} or more; ` +
        `${told.may("the yield", "that may be past the yield")} of ${of} is ${told.limit}.`,
    });
  }
  return judgeBounds({
    ...common,
    value: answerOf(reckonings, ids.most),
    grade: "information",
    message: (told) =>
      `By a teaching estimate the screw in ${hole} is bent with ${printValue(least, "MPa")} to ${told.value}: ` +
      `${told.may("only the upper bound passes", "only the upper bound may pass")} the ${told.limit} of ${of}, so the bound decides.`,
  });
}

function aboutScrew(plan: Plan): readonly Related[] {
  const place = plan.aftercare?.bearing[0]?.place ?? plan.case?.weight?.place;
  return place === undefined ? [] : [{ place, message: "The load." }];
}
