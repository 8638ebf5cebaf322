/**
 * A hole, a bend or the end of the driving end that lies outside the shortest nail of the list.
 */
import type { CatalogueNail, Typed } from "../meaning/plan.ts";
import { constant } from "../quantity/arithmetic.ts";
import { aboutList, type OwnFiguresRule, overNails, ownFigures, shortest } from "./catalogue-checks.ts";
import type { Verdict } from "./finding.ts";
import { clear, judgeBounds, together } from "./judging.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "part-off-nail",
  title: "Part that lies outside the nail",
  why:
    "A hole further from its end than the nail is long is no hole of that nail, and its level is reckoned all the same. " +
    "What is listed has to lie on every nail of the list, the shortest too.",
  grade: "error",
  basis: ownFigures,
  wrong: { change: [["hole P1, top 40 mm", "hole P1, top 400 mm"]], of: "catalogue" },
  right: { change: [], of: "catalogue" },
  check: overNails((nail) => together(partsOf(nail).map((part) => onNail(nail, part)))),
};

interface Part {
  readonly at: string;
  readonly words: string;
  readonly distance: Typed;
}

function partsOf(nail: CatalogueNail): readonly Part[] {
  const holes = nail.holes.flatMap(({ name, end, distance }) =>
    end === undefined || distance === undefined
      ? []
      : [
          {
            at: name.text,
            words: `Hole ${name.text} lies`,
            from: end === "tip" ? "the tip" : "the driving end",
            distance,
          },
        ],
  );
  const along = nail.drivingEnd?.along;
  const bend = nail.bend?.at;
  return [
    ...holes.map(({ at, words, from, distance }) => ({ at, words: `${words}, from ${from},`, distance })),
    ...(along === undefined ? [] : [{ at: nail.name.text, words: "The driving end goes", distance: along }]),
    ...(bend === undefined ? [] : [{ at: nail.name.text, words: "The bend lies", distance: bend }]),
  ];
}

function onNail(nail: CatalogueNail, { at, words, distance }: Part): Verdict {
  const most = shortest(nail.lengths);
  if (most === undefined) return clear;
  return judgeBounds({
    value: distance.quantity,
    bounds: { least: constant(0, "mm"), most },
    grade: rule.grade,
    unit: "mm",
    place: distance.place,
    at,
    related: aboutList(nail.lengths, `The lengths of nail ${nail.name.text}.`),
    message: ({ side, value, limit }) =>
      side === "most"
        ? `${words} at ${value}; the shortest nail ${nail.name.text} is ${limit} long.`
        : `${words} at ${value}, outside the nail.`,
  });
}
