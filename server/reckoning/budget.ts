/**
 * What a value's uncertainty is made of, reading by reading, and what the leading reading would have to be known to for a decision
 * to be settled. Both read the first-order sensitivities a value carries; nothing is reckoned anew.
 */
import { exact, halfWidthIn, shares } from "../quantity/arithmetic.ts";
import { settling } from "../quantity/probability.ts";
import type { Known, Quantity, Reading } from "../quantity/quantity.ts";
import { fromBase, unit } from "../quantity/units.ts";

/** One reading's part. Half-widths are at k = 2. */
export interface BudgetLine {
  readonly label: string;
  /** Of the variance, 0 to 1; all lines add up to 1. */
  readonly share: number;
  /** The reading's own half-width, shown in `unit`. */
  readonly halfWidth: Quantity;
  readonly unit: string;
  /** Half-width the value would have from this reading alone. */
  readonly contribution: Quantity;
}

/** The largest part first; empty when the value is exact. `shownUnit` is the unit the value is shown in. */
export function budgetOf(value: Known, shownUnit: string): readonly BudgetLine[] {
  const whole = halfWidthIn(value, shownUnit);
  return shares(value).map(({ reading, share }) => ({
    label: reading.label,
    share,
    halfWidth: halfWidthOf(reading, 2 * reading.standardUncertainty),
    unit: reading.unit,
    contribution: exact(whole * Math.sqrt(share), shownUnit),
  }));
}

/**
 * How a decision between two sides of a limit could be settled by knowing the leading reading better, the others staying as they
 * are. Half-widths at k = 2, shown in `unit`; `needed` undefined when even an exact reading would not do.
 */
export interface Need {
  readonly label: string;
  readonly now: Quantity;
  readonly needed: Quantity | undefined;
  readonly unit: string;
}

/** Undefined when the decision is settled already: one side has at least 95 %. Throws when the dimensions differ. */
export function needOf(value: Known, limit: Known): Need | undefined {
  const open = settling(value, limit);
  if (open === undefined) return undefined;
  const { reading, halfWidth, needed } = open;
  return {
    label: reading.label,
    now: halfWidthOf(reading, halfWidth),
    needed: needed === undefined ? undefined : halfWidthOf(reading, needed),
    unit: reading.unit,
  };
}

/** `inBase` is a half-width in the reading's base units. */
function halfWidthOf(reading: Reading, inBase: number): Quantity {
  const shown = unit(reading.unit);
  return exact(shown === undefined ? inBase : fromBase(inBase, shown), reading.unit);
}
