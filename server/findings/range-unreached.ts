/**
 * A range whose step does not land on its end, so that the end typed is no member of the list.
 */
import type { SizeList } from "../meaning/plan.ts";
import { compare } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import { sameDimension } from "../quantity/units.ts";
import type { OwnFiguresRule } from "./catalogue-checks.ts";
import type { Fix, Found } from "./finding.ts";
import { type ListedLine, listsOf } from "./listed-lines.ts";
import { languageBasis } from "./problem-words.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "range-unreached",
  title: "Range whose step does not land on its end",
  why:
    "A range is written out step by step and ends at the last whole step, so an end between two steps is left out of the list. " +
    "Whoever reads the line takes the end for a member of it.",
  grade: "warning",
  basis: languageBasis,
  wrong: { change: [["lengths 240 mm to 420 mm by 15 mm", "lengths 240 mm to 425 mm by 15 mm"]], of: "catalogue" },
  right: { change: [], of: "catalogue" },
  check: (document) => ({ found: listsOf(document).flatMap(unreachedIn) }),
};

type WrittenRange = NonNullable<SizeList["ranges"]>[number];

function unreachedIn({ words, list }: ListedLine): readonly Found[] {
  return (list.ranges ?? []).flatMap((range) => unreached(words, range));
}

function unreached(words: string, { to, last }: WrittenRange): readonly Found[] {
  const [end, reached] = [to.quantity, last.quantity];
  if (end.kind === "unknown" || reached.kind === "unknown" || !sameDimension(end.dimension, reached.dimension))
    return [];
  if (compare(reached, end) === 0) return [];
  const [meant, got] = [printValue(end, "mm"), printValue(reached, "mm")];
  const fix: Fix = {
    title: `end the range at ${got}`,
    class: "needs a choice",
    edits: [{ span: to.place.span, text: got }],
  };
  return [
    {
      place: to.place,
      message: `The step does not land on ${meant}: ${words} end at ${got}.`,
      value: end,
      limit: reached,
      unit: "mm",
      fixes: [fix],
    },
  ];
}
