/**
 * A front-cutting reamer head that is not among the heads of the set.
 */
import type { Reamers } from "../meaning/plan.ts";
import { printValue } from "../quantity/print.ts";
import { aboutList, type OwnFiguresRule, overCatalogue, ownFigures } from "./catalogue-checks.ts";
import type { Found } from "./finding.ts";
import { isLength, isListed, lengthsOf } from "./listed-sizes.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "front-cutting-unlisted",
  title: "Front-cutting head that is not among the heads",
  why:
    "The front-cutting heads are those of the set with which reaming begins, so each of them stands among the heads too. " +
    "Reaming would else begin with a head that nothing else knows of.",
  grade: "error",
  basis: ownFigures,
  wrong: { change: [["front-cutting 8 mm, 8.5 mm", "front-cutting 7.5 mm, 8.5 mm"]], of: "catalogue" },
  right: { change: [], of: "catalogue" },
  check: overCatalogue(({ reamers }) => ({ found: reamers.flatMap(unlistedIn) })),
};

function unlistedIn({ heads, frontCutting }: Reamers): readonly Found[] {
  const listed = lengthsOf(heads);
  if (listed.length === 0) return [];
  return (frontCutting?.sizes ?? []).flatMap(({ quantity, place }) =>
    !isLength(quantity) || isListed(listed, quantity)
      ? []
      : [
          {
            place,
            message: `The front-cutting head of ${printValue(quantity, "mm")} is not among the heads of the set.`,
            value: quantity,
            unit: "mm",
            related: aboutList(heads, "The heads of the set."),
          },
        ],
  );
}
