/**
 * A hollow through the nail that is as wide as its thinnest diameter or wider.
 */
import { aboutList, type OwnFiguresRule, overNails, ownFigures, shortest } from "./catalogue-checks.ts";
import { clear, judgeBounds } from "./judging.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "bore-wide",
  title: "Hollow as wide as the nail",
  why:
    "The hollow for the guide wire lies inside the thinnest nail of the list. " +
    "With one as wide as the nail there is no wall, and the nail's bending stiffness would be reckoned from nothing.",
  grade: "error",
  basis: ownFigures,
  wrong: { change: [["bore 5 mm", "bore 9 mm"]], of: "catalogue" },
  right: { change: [], of: "catalogue" },
  check: overNails(({ name, bore, diameters }) => {
    const thinnest = shortest(diameters);
    if (bore === undefined || thinnest === undefined) return clear;
    return judgeBounds({
      value: bore.quantity,
      bounds: { most: thinnest },
      strict: true,
      grade: rule.grade,
      unit: "mm",
      place: bore.place,
      at: name.text,
      related: aboutList(diameters, `The diameters of nail ${name.text}.`),
      message: ({ value, limit }) =>
        `The hollow of ${value} leaves no wall in the thinnest nail ${name.text}, ${limit}.`,
    });
  }),
};
