/**
 * A driving end that is thinner than the shaft of a nail it belongs to.
 */
import { aboutList, longest, type OwnFiguresRule, overNails, ownFigures } from "./catalogue-checks.ts";
import { clear, judgeBounds } from "./judging.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "driving-end-narrow",
  title: "Driving end thinner than the shaft",
  why:
    "The driving end is the thicker part of the nail, or as thick as the shaft. " +
    "One that is thinner than the thickest nail of the list belongs to other diameters, or was mistyped.",
  grade: "warning",
  basis: ownFigures,
  wrong: { change: [["    bore 5 mm\n", "    bore 5 mm\n    driving-end 11 mm, along 55 mm\n"]], of: "catalogue" },
  right: { change: [["    bore 5 mm\n", "    bore 5 mm\n    driving-end 12 mm, along 55 mm\n"]], of: "catalogue" },
  check: overNails(({ name, drivingEnd, diameters }) => {
    const thickest = longest(diameters);
    if (drivingEnd === undefined || thickest === undefined) return clear;
    return judgeBounds({
      value: drivingEnd.diameter.quantity,
      bounds: { least: thickest },
      grade: rule.grade,
      unit: "mm",
      place: drivingEnd.diameter.place,
      at: name.text,
      related: aboutList(diameters, `The diameters of nail ${name.text}.`),
      message: ({ value, limit }) =>
        `The driving end of ${value} is thinner than the shaft of the thickest nail ${name.text}, ${limit}.`,
    });
  }),
};
