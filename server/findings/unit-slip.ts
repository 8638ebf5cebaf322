/**
 * Fixes for a length that is a power of ten away from what a bone has: the unit that would fit, or the decimal point one place to
 * the left. Whether a length is impossible is for the rule to say.
 */
import type { QuantityItem } from "../../grammar/tree.ts";
import type { Plan, Typed } from "../meaning/plan.ts";
import { scale } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import type { Fix } from "./finding.ts";
import { type Bounds, judgeAtLeast, judgeAtMost } from "./judging.ts";
import { quantitiesWithin } from "./tree-walk.ts";

/** From the typed unit to the one ten times as large or as small; the factor is what the value becomes. */
const slips: readonly { readonly typed: string; readonly meant: string; readonly factor: number }[] = [
  { typed: "mm", meant: "cm", factor: 10 },
  { typed: "cm", meant: "mm", factor: 0.1 },
  { typed: "m", meant: "mm", factor: 0.001 },
  { typed: "m", meant: "cm", factor: 0.01 },
];

/** The changes of unit or decimal point that bring `value` inside the bounds; none when it was not typed as one number. */
export function unitSlipFixes(plan: Plan, typed: Typed, value: Quantity, bounds: Bounds): readonly Fix[] {
  // Asked first: to look for what was typed at every reading of a plan takes time that grows with its square.
  if (typed.place.file !== plan.file || fits(value, bounds)) return [];
  const [item, ...others] = quantitiesWithin(plan.statement, typed.place.span);
  if (item?.unit === undefined || others.length > 0) return [];
  const { unit } = item;
  const fitting = slips.filter((slip) => slip.typed === unit.unit && fits(scale(value, slip.factor), bounds));
  const units = fitting.map((slip) => unitFix(item, unit, slip.meant));
  return fits(scale(value, 0.1), bounds) ? [...units, ...pointFix(item, unit.text)] : units;
}

type UnitWord = NonNullable<QuantityItem["unit"]>;

function fits(value: Quantity, bounds: Bounds): boolean {
  if (value.kind === "unknown") return false;
  const low = judgeAtLeast(value, bounds.least, "warning");
  const high = judgeAtMost(value, bounds.most, "warning");
  return low === undefined && high === undefined;
}

function unitFix(item: QuantityItem, typed: UnitWord, unit: string): Fix {
  const spans = [typed, item.plusMinusUnit].flatMap((each) => (each === undefined ? [] : [each.span]));
  const apart = [...new Map(spans.map((span) => [span.start, span])).values()];
  return {
    title: `${item.number.text} ${typed.text} → ${item.number.text} ${unit}`,
    class: "needs a choice",
    edits: apart.map((span) => ({ span, text: unit })),
  };
}

/** 124 mm → 12.4 mm, for whole numbers of two digits and more. */
function pointFix(item: QuantityItem, unit: string): readonly Fix[] {
  const digits = item.number.text;
  if (!/^\d{2,}$/.test(digits)) return [];
  const shifted = `${digits.slice(0, -1)}.${digits.slice(-1)}`;
  return [
    {
      title: `${digits} ${unit} → ${shifted} ${unit}`,
      class: "needs a choice",
      edits: [{ span: item.number.span, text: shifted }],
    },
  ];
}
