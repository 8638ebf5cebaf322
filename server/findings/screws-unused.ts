/**
 * A family of screws that goes with no nail of its catalogue: no hole takes it, or it goes with nail diameters that none has.
 */
import type { Catalogue, CatalogueNail, ScrewFamily } from "../meaning/plan.ts";
import { printValue } from "../quantity/print.ts";
import { familiesOf, type OwnFiguresRule, overCatalogue, ownFigures } from "./catalogue-checks.ts";
import type { Found } from "./finding.ts";
import { isLength, isListed, lengthsOf } from "./listed-sizes.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "screws-unused",
  title: "Screws that go with no nail of the set",
  why:
    "A family that no hole takes, or that goes with a nail diameter no nail has, is offered to nobody. " +
    "Most often a name or a diameter was typed differently in two places.",
  grade: "warning",
  basis: ownFigures,
  wrong: {
    change: [
      [
        "  reamers {",
        "  screws pin {\n    thread 3 mm\n    core 2 mm\n    drill 2 mm\n    lengths 20 mm, 30 mm\n  }\n\n  reamers {",
      ],
    ],
    of: "catalogue",
  },
  right: { change: [], of: "catalogue" },
  check: overCatalogue((catalogue) => ({
    found: catalogue.nails.length === 0 ? [] : catalogue.screws.flatMap((family) => unusedIn(catalogue, family)),
  })),
};

function unusedIn({ nails }: Catalogue, family: ScrewFamily): readonly Found[] {
  const name = family.name.text;
  const takers = nails.filter((nail) => nail.holes.some((hole) => familiesOf(hole).has(name)));
  if (takers.length === 0) {
    return [{ place: family.name.place, message: `No hole of the catalogue takes screw ${name}.`, at: name }];
  }
  return diametersOfNone(family, takers);
}

function diametersOfNone(family: ScrewFamily, takers: readonly CatalogueNail[]): readonly Found[] {
  const had = lengthsOf(...takers.map((nail) => nail.diameters));
  if (had.length === 0) return [];
  return (family.withDiameters?.sizes ?? []).flatMap(({ quantity, place }) => {
    if (!isLength(quantity) || isListed(had, quantity)) return [];
    const diameter = printValue(quantity, "mm");
    const message = `Screw ${family.name.text} goes with a nail of ${diameter}; no nail that takes it has that diameter.`;
    return [{ place, message, at: family.name.text, value: quantity, unit: "mm" }];
  });
}
