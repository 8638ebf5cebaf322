/** The quantity at a place in another unit of its dimension: only where the digits that are written say exactly the same. */
import { parse } from "../../grammar/parse.ts";
import type { NumberItem, QuantityItem, Span } from "../../grammar/tree.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";
import { compare, exact } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import type { Analysis } from "./analyse.ts";
import { itemsAt } from "./at.ts";
import type { Refactoring } from "./refactorings.ts";

export function convertedUnits({ parsed }: Analysis, span: Span): readonly Refactoring[] {
  const item = itemsAt(parsed.tree, span.start).find((each) => each.kind === "quantity");
  if (item?.kind !== "quantity" || item.unit === undefined || span.end > item.span.end) return [];
  const own = unitWords.get(item.unit.unit);
  const others = [...unitWords].filter(([word, { unit, dimension }]) => {
    return word === unit && dimension === own?.dimension && unit !== own.unit;
  });
  return others.flatMap(([to]): Refactoring[] => {
    const text = quantityIn(item, to);
    if (text === undefined) return [];
    return [{ title: `Convert to ${to}: ${text}`, kind: "rewrite", edits: [{ span: item.span, text }] }];
  });
}

function quantityIn({ number, unit, plusMinus, plusMinusUnit }: QuantityItem, to: string): string | undefined {
  const value = numberIn(number, unit?.unit, to);
  if (value === undefined || plusMinus === undefined) return value;
  const halfWidth = numberIn(plusMinus, (plusMinusUnit ?? unit)?.unit, to);
  return halfWidth === undefined ? undefined : `${value} ± ${halfWidth}`;
}

/** Printed in the unit and read again; undefined when that is not the same value. */
function numberIn({ value, text }: NumberItem, from: string | undefined, to: string): string | undefined {
  if (from === undefined) return undefined;
  const was = exact(value, from, text);
  if (was.kind === "unknown") return undefined;
  const written = print(was, to);
  const read = parse(`let x = ${written}`).tree.statements[0]?.phrases[0]?.items[2];
  if (read?.kind !== "quantity" || read.unit?.unit !== to) return undefined;
  const is = exact(read.number.value, to, read.number.text);
  if (is.kind === "unknown" || compare(is, was) !== 0) return undefined;
  return isFaithful(is.value, was.value) ? written : undefined;
}

/** What was rounded on the way is off by far more than what the unit's factor costs in floating point. */
function isFaithful(is: number, was: number): boolean {
  return Math.abs(is - was) <= 1e-12 * Math.abs(was);
}
