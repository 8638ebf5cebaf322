/**
 * The strain in the fracture gap under the load that the after-care allows, as a teaching estimate between two bounds. When only the
 * upper one passes the limit, the finding says that the bound decides.
 */
import { print } from "../quantity/print.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { PlanRule, Related, Subject } from "./finding.ts";
import { cannotTell, judgeAtMost, judgeBounds } from "./judging.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "gap-strain",
  title: "Strain in the fracture gap above what cartilage bears",
  why:
    "Tissue in the gap turns to bone or cartilage only while it is strained little, and a narrow gap is strained most by the same motion. " +
    "The estimate is for teaching: nominal strain, no contact of the fragments, screws between simple and between fixed ends as bounds that lie far apart.",
  grade: "information",
  basis: {
    mark: "from memory",
    text: "Perren, J Bone Joint Surg Br 2002;84-B:1093, from memory, check against the source: (fibro)cartilage up to 10 %",
  },
  limits: ["gap-strain"],
  wrong: {
    change: [
      ["gap 3 mm ± 1 mm", "gap 1 mm"],
      ["    compress 2 turns\n", "    compress 0.5 mm\n"],
      ["weight-bearing partial 20 kg, until 6 weeks", "weight-bearing partial 50 kg, until 6 weeks"],
    ],
  },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const gap = plan.case?.fracture?.gap;
    if (gap === undefined) return cannotTell("no gap of the fracture is given");
    const limit = limits.get("gap-strain");
    const least = answerOf(reckonings, "gap.strain.least");
    const most = answerOf(reckonings, "gap.strain.most");
    const common = {
      bounds: limit,
      side: "most",
      grade: "information",
      unit: "%",
      place: gap.place,
      at: "gap",
    } as const;
    const related = aboutLoad(subject);
    if (judgeAtMost(least, limit.most, "information") !== undefined) {
      return judgeBounds({
        ...common,
        value: least,
        related,
        message: (told) =>
          `By a teaching estimate the gap is strained by ${told.value} or more under the load allowed; ` +
          `${told.may("cartilage bears", "that may be more than")} ${told.limit}.`,
      });
    }
    return judgeBounds({
      ...common,
      value: most,
      related,
      message: (told) =>
        `By a teaching estimate the gap is strained by ${print(least, "%")} to ${told.value} under the load allowed: ` +
        `${told.may("only the upper bound passes", "only the upper bound may pass")} ${told.limit}, so the bound decides.`,
    });
  },
};

function aboutLoad({ plan }: Subject): readonly Related[] {
  const bearing = plan.aftercare?.bearing[0];
  const place = bearing?.place ?? plan.case?.weight?.place;
  return place === undefined ? [] : [{ place, message: "The load." }];
}
