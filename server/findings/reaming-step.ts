/**
 * From one reamer head to the next the canal is widened by more than the limit. Heads that do not grow are `reaming-order`.
 */
import type { ReamStep } from "../meaning/plan.ts";
import { compare, subtract } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { stepsOf } from "../reckoning/given.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { Fix, PlanRule, Subject } from "./finding.ts";
import { headsOf, listedHeads, rewriteHeads } from "./head-list.ts";
import { cannotTell, clear, judgeBounds } from "./judging.ts";
import { passing } from "./limit-words.ts";
import { isLength, pairsOf } from "./listed-sizes.ts";
import { counted } from "./words.ts";

export const rule: PlanRule = {
  kind: "plan",
  slug: "reaming-step",
  title: "Step between reamer heads wider than the limit",
  why:
    "A head that has to cut much at once presses and heats the bone and can jam. " +
    "Small steps let each head cut a thin layer and clear its debris.",
  grade: "warning",
  basis: {
    mark: "printed",
    text: "Baumgart, Kohler & Ochsner, Injury 1998;29 Suppl 2:B11-25, doi 10.1016/s0020-1383(98)80058-2: at most 0.5 mm a head",
  },
  limits: ["reaming-step"],
  wrong: { change: [["ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to 11.5 mm by 1 mm"]] },
  right: { change: [] },
  check: (subject) => {
    const { plan, reckonings, limits } = subject;
    const reams = stepsOf(plan, "ream");
    const last = reams.at(-1);
    const sizes = reams.flatMap((ream) => ream.heads.sizes);
    if (last === undefined || sizes.length < 2) return clear;
    const heads = reams.flatMap((ream) => headsOf(ream) ?? []);
    const shrinks = pairsOf(heads).some(([before, head]) => compare(head, before) <= 0);
    if (shrinks) return cannotTell("the reamer heads do not grow");
    return judgeBounds({
      value: answerOf(reckonings, "ream.step"),
      bounds: limits.get("reaming-step"),
      side: "most",
      grade: "warning",
      unit: "mm",
      place: last.heads.place,
      message: (told) => passing(told, `The heads grow by ${told.value} at once`),
      fixes: reams.length > 1 ? [] : finerList(subject, last),
    });
  },
};

/** The same list with the listed heads between put in, when they make every step small enough. */
function finerList({ plan, limits }: Subject, ream: ReamStep): readonly Fix[] {
  const heads = headsOf(ream);
  const [first, last] = [heads?.[0], heads?.at(-1)];
  const { most } = limits.get("reaming-step");
  if (heads === undefined || first === undefined || last === undefined || most === undefined) return [];
  const between = listedHeads(plan).filter((head) => compare(head, first) > 0 && compare(head, last) < 0);
  const all = [...heads, ...between].toSorted(compare).filter((head, at, list) => isNew(head, list[at - 1]));
  if (!pairsOf(all).every(([from, to]) => isStep(from, to, most))) return [];
  const edits = rewriteHeads(plan, ream, all);
  if (edits.length === 0) return [];
  const from = counted(heads.length, "head", "heads");
  return [
    {
      title: `${from} → ${counted(all.length, "head", "heads")}: no step above ${printValue(most, "mm")}`,
      class: "changes a decision",
      edits,
    },
  ];
}

function isNew(head: Known, before: Known | undefined): boolean {
  return before === undefined || compare(head, before) !== 0;
}

function isStep(from: Known, to: Known, most: Known): boolean {
  const step = subtract(to, from);
  return isLength(step) && compare(step, most) <= 0;
}
