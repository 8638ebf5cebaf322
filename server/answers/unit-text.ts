/** A unit in words, with the value beside it in the other units of its dimension. Conversion and printing are the quantities' own. */
import type { QuantityItem } from "../../grammar/tree.ts";
import { type UnitWord, unitWords } from "../../grammar/vocabulary/units.ts";
import { exact, measured, valueIn } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { sameDimension } from "../quantity/units.ts";

/** Undefined for a word that is no unit. With `of` the value is given in the other units too. */
export function unitMarkdown(word: string, of?: QuantityItem): string | undefined {
  const entry = unitWords.get(word);
  if (entry === undefined) return undefined;
  const others = otherUnits(entry);
  const siblings = others.length === 0 ? "" : ` Other units of ${entry.dimension}: ${others.join(", ")}.`;
  const quantity = of === undefined ? undefined : quantityOf(of);
  const head = `**${entry.unit}**: ${entry.doc}${siblings}`;
  if (quantity === undefined || of?.unit === undefined || others.length === 0) return head;
  const own = unitWords.get(of.unit.unit)?.unit ?? "";
  const values = [own, ...otherUnits({ ...entry, unit: own })].map((unit) => print(quantity, unit));
  return `${head}\n\n${values.join(" = ")}`;
}

function otherUnits({ dimension, unit }: UnitWord): readonly string[] {
  const all = [...unitWords.values()].filter((each) => each.dimension === dimension && each.unit !== unit);
  return [...new Set(all.map((each) => each.unit))];
}

/** The value as typed; undefined when it is out of range or its ± is of another dimension. */
function quantityOf({ number, unit, plusMinus, plusMinusUnit }: QuantityItem): Quantity | undefined {
  if (unit === undefined) return undefined;
  const value = exact(number.value, unit.unit, number.text);
  if (value.kind === "unknown" || plusMinus === undefined) return value.kind === "unknown" ? undefined : value;
  const spread = exact(plusMinus.value, (plusMinusUnit ?? unit).unit);
  if (spread.kind === "unknown" || !sameDimension(spread.dimension, value.dimension)) return undefined;
  return measured(number.value, valueIn(spread, unit.unit), unit.unit, { id: "typed", label: "as typed" });
}
