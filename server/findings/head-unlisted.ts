/**
 * A reamer head that no catalogue the plan reads lists.
 */
import type { Plan, ReamStep } from "../meaning/plan.ts";
import { printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { stepsOf } from "../reckoning/given.ts";
import type { Fix, Found, PlanRule, Verdict } from "./finding.ts";
import { headsOf, listedHeads, rewriteHeads, written } from "./head-list.ts";
import { cannotTell, clear, together } from "./judging.ts";
import { isListed, lengthsOf, nearestListed } from "./listed-sizes.ts";
import { listed } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "head-unlisted",
  title: "Reamer head that the catalogue does not list",
  why:
    "A head that is not on the shelf is found out in theatre. " +
    "The heads typed are looked up in the reamers of the catalogues that the plan reads.",
  grade: "error",
  basis: { mark: "catalogue", text: "the heads listed in the catalogues that the plan reads" },
  limits: [],
  wrong: { change: [["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.6 mm to 11.1 mm by 0.5 mm"]] },
  right: { change: [] },
  check: ({ plan }) => {
    const reams = stepsOf(plan, "ream");
    if (reams.length === 0) return clear;
    const list = listedHeads(plan);
    if (list.length === 0) return cannotTell("no catalogue that was read lists reamer heads");
    return together(reams.map((ream) => unlisted(plan, ream, list)));
  },
};

function unlisted(plan: Plan, ream: ReamStep, list: readonly Known[]): Verdict {
  const heads = headsOf(ream);
  if (heads === undefined) return cannotTell("a reamer head is unknown");
  const missing = heads.filter((head) => !isListed(list, head));
  const [first] = missing;
  if (first === undefined) return clear;
  const names = missing.length > 4 ? `${missing.length} of these heads` : `the ${sizes(missing)}`;
  const finding: Found = {
    place: ream.heads.place,
    message: `The catalogue does not list ${names}.`,
    value: first,
    unit: "mm",
    related: plan.reamers.map((reamers) => ({ place: reamers.place, message: "The heads the catalogue lists." })),
    fixes: nearest(plan, ream, heads, list),
  };
  return { found: [finding] };
}

function sizes(heads: readonly Known[]): string {
  return `${listed(heads.map((head) => printValue(head, "mm")))} ${heads.length > 1 ? "heads" : "head"}`;
}

/** Each head that is not listed becomes the nearest that is. */
function nearest(plan: Plan, ream: ReamStep, heads: readonly Known[], list: readonly Known[]): readonly Fix[] {
  const moved = heads.map((head) => (isListed(list, head) ? head : nearestListed(list, head)));
  const known = moved.filter((head) => head !== undefined);
  const once = lengthsOf({ sizes: known.map((quantity) => ({ quantity, place: ream.place })), place: ream.place });
  const edits = once.length === heads.length ? rewriteHeads(plan, ream, once) : [];
  if (edits.length === 0) return [];
  return [{ title: `the nearest listed heads: ${written(once)}`, class: "needs a choice", edits }];
}
