/**
 * Two holes of one nail so near each other that their screws would run into each other, for one of its lengths at least.
 */
import type { Catalogue, CatalogueHole, CatalogueNail, Typed } from "../meaning/plan.ts";
import { absolute, add, scale, subtract } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { familiesOf, type OwnFiguresRule, overNails } from "./catalogue-checks.ts";
import { geometry } from "./common-practice.ts";
import type { Found, Verdict } from "./finding.ts";
import { judgeBounds } from "./judging.ts";
import { isLength, lengthsOf } from "./listed-sizes.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "holes-overlap",
  title: "Holes that run into each other",
  why:
    "Every screw crosses the nail's axis, so two screws have to cross it further apart than half of both their threads, " +
    "whichever way they run. A hole given from the top and one given from the tip come together on a short nail.",
  grade: "error",
  basis: geometry,
  wrong: { change: [["hole P1, top 40 mm", "hole P1, top 30 mm"]], of: "catalogue" },
  right: { change: [], of: "catalogue" },
  check: overNails((nail, catalogue) => {
    const pairs = nail.holes.flatMap((second, at) => nail.holes.slice(0, at).map((first) => [first, second] as const));
    const verdicts = pairs.map(([first, second]) => apart(nail, first, second, roomOf(catalogue, first, second)));
    return {
      found: verdicts.flatMap(({ found }) => found.slice(0, 1)),
      untold: verdicts.flatMap((each) => each.untold ?? []),
    };
  }),
};

/** Judged for every length where the ends differ; the first length at which they meet is told. */
function apart(nail: CatalogueNail, first: CatalogueHole, second: CatalogueHole, room: Quantity | undefined): Verdict {
  const { distance: a } = first;
  const { distance: b } = second;
  if (a === undefined || b === undefined || room === undefined || first.end === undefined || second.end === undefined) {
    return { found: [] };
  }
  // A hole off the nail has a finding of its own.
  const lengths = lengthsOf(nail.lengths);
  if (isOff(a, lengths[0]) || isOff(b, lengths[0])) return { found: [] };
  if (first.end === second.end) return between(first, second, subtract(a.quantity, b.quantity), room, undefined);
  const verdicts = lengths.map((length) =>
    between(first, second, subtract(length, add(a.quantity, b.quantity)), room, length),
  );
  return { found: verdicts.flatMap(({ found }): readonly Found[] => found) };
}

function isOff({ quantity }: Typed, shortest: Known | undefined): boolean {
  return shortest !== undefined && isLength(quantity) && quantity.value > shortest.value;
}

function between(
  first: CatalogueHole,
  second: CatalogueHole,
  difference: Quantity,
  room: Quantity,
  length: Known | undefined,
): Verdict {
  const nail = length === undefined ? "" : ` on the nail of ${printValue(length, "mm")}`;
  return judgeBounds({
    value: absolute(difference),
    bounds: { least: room },
    grade: rule.grade,
    unit: "mm",
    place: second.name.place,
    at: second.name.text,
    related: [{ place: first.name.place, message: `Hole ${first.name.text}.` }],
    message: ({ value, limit }) =>
      `Holes ${first.name.text} and ${second.name.text} lie ${value} apart${nail}; their screws take ${limit}.`,
  });
}

/** Half of both threads, of the thinnest family each hole takes: what they need at least. */
function roomOf(catalogue: Catalogue, first: CatalogueHole, second: CatalogueHole): Quantity | undefined {
  const [a, b] = [thinnest(catalogue, first), thinnest(catalogue, second)];
  return a === undefined || b === undefined ? undefined : scale(add(a, b), 0.5);
}

function thinnest(catalogue: Catalogue, hole: CatalogueHole): Known | undefined {
  const taken = familiesOf(hole);
  const threads = catalogue.screws.flatMap(({ name, thread }): readonly Typed[] =>
    taken.has(name.text) && thread !== undefined && isLength(thread.quantity) ? [thread] : [],
  );
  const [first] = threads;
  return first === undefined ? undefined : lengthsOf({ sizes: threads, place: first.place })[0];
}
