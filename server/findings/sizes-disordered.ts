/**
 * A list of sizes in a catalogue that does not grow: a size twice, or a smaller one after a larger.
 */
import type { Typed } from "../meaning/plan.ts";
import { compare } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import { sameDimension } from "../quantity/units.ts";
import { type OwnFiguresRule, overCatalogue, ownFigures } from "./catalogue-checks.ts";
import type { Found } from "./finding.ts";
import { type ListedLine, listsOf } from "./listed-lines.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "sizes-disordered",
  title: "List of sizes that does not grow",
  why:
    "Sizes are listed from the smallest to the largest, each once, as they lie in the tray. " +
    "One out of place is most often a slip of the keyboard: 54 mm for 45 mm, or a size that was meant to be another.",
  grade: "warning",
  basis: ownFigures,
  wrong: { change: [["caps 0 mm, 5 mm, 10 mm, 15 mm", "caps 0 mm, 5 mm, 5 mm, 15 mm"]], of: "catalogue" },
  right: { change: [], of: "catalogue" },
  check: overCatalogue((catalogue) => ({ found: listsOf(catalogue).flatMap(disorderIn) })),
};

/** The first size of a list that does not grow: what follows it would only say the same. */
function disorderIn({ words, list }: ListedLine): readonly Found[] {
  for (const [at, size] of list.sizes.entries()) {
    const before = list.sizes[at - 1];
    const told = before === undefined ? undefined : notGrowing(words, before, size);
    if (told !== undefined) return [told];
  }
  return [];
}

function notGrowing(words: string, before: Typed, size: Typed): Found | undefined {
  const [a, b] = [before.quantity, size.quantity];
  if (a.kind === "unknown" || b.kind === "unknown" || !sameDimension(a.dimension, b.dimension)) return undefined;
  const order = compare(a, b);
  if (order < 0) return undefined;
  const message =
    order === 0
      ? `${shown(b)} stands twice among ${words}.`
      : `Among ${words}, ${shown(b)} comes after ${shown(a)}; a list grows.`;
  return {
    place: size.place,
    message,
    value: b,
    unit: "mm",
    related: [{ place: before.place, message: "The size before it." }],
  };
}

function shown(size: Known): string {
  return printValue(size, "mm");
}
