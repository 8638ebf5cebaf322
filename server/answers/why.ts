/**
 * Why a number is as uncertain as it is and what would settle the decisions that hang on it: the budget of a reckoning and, for
 * every finding that cannot be decided, how well the leading reading would have to be known.
 */
import type { Finding } from "../findings/finding.ts";
import { exact, valueIn } from "../quantity/arithmetic.ts";
import { decimalsFor } from "../quantity/decimal.ts";
import { roundDown } from "../quantity/elementary.ts";
import { print, printPercent } from "../quantity/print.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { type BudgetLine, budgetOf, needOf } from "../reckoning/budget.ts";
import type { Reckoning } from "../reckoning/reckoning.ts";
import type { Analysis } from "./analyse.ts";

/** Lines of a budget as text, largest share first; empty for an exact or unknown answer. */
export function budgetLines({ answer, unit }: Reckoning): string[] {
  return answer.kind === "known" ? budgetOf(answer, unit).map((line) => budgetText(line, unit)) : [];
}

/** What would settle a finding that is neither sure nor excluded: "needs the scar to ± 1.1 mm; now ± 2 mm". */
export function needText({ value, limit }: Pick<Finding, "value" | "limit">): string | undefined {
  if (value?.kind !== "known" || limit?.kind !== "known") return undefined;
  const need = needOf(value, limit);
  if (need === undefined) return undefined;
  const now = `now ± ${print(need.now, need.unit)}`;
  if (need.needed === undefined) return `${need.label} alone would not settle it, however well it were known (${now})`;
  return `to be settled it needs ${need.label} to ± ${print(roundedDown(need.needed, need.unit), need.unit)}; ${now}`;
}

/** To two significant digits, downwards: what is asked for must be enough. */
function roundedDown(needed: Quantity, unit: string): Quantity {
  if (needed.kind === "unknown") return needed;
  return roundDown(needed, exact(10 ** -decimalsFor(valueIn(needed, unit), 2), unit));
}

/** The findings whose value is the answer of this reckoning. */
export function findingsOn(analysis: Analysis, { answer }: Reckoning): readonly Finding[] {
  return analysis.judgement.findings.filter(({ value }) => value !== undefined && sameQuantity(value, answer));
}

function budgetText({ label, share, halfWidth, unit, contribution }: BudgetLine, shown: string): string {
  return `${printPercent(share)} from ${label} (± ${print(halfWidth, unit)}), ± ${print(contribution, shown)} of it`;
}

function sameQuantity(value: Quantity, answer: Reckoning["answer"]): boolean {
  return (
    value === answer ||
    (value.kind === "known" &&
      answer.kind === "known" &&
      value.value === answer.value &&
      value.influences === answer.influences)
  );
}
