/**
 * A hole that takes a family of screws that its catalogue does not list.
 */
import { nearest } from "../../grammar/nearest.ts";
import type { Said, ScrewFamily } from "../meaning/plan.ts";
import { type OwnFiguresRule, overCatalogue, ownFigures } from "./catalogue-checks.ts";
import type { Found } from "./finding.ts";
import { quoted } from "./words.ts";

export const rule: OwnFiguresRule = {
  kind: "text",
  slug: "family-unlisted",
  title: "Hole that takes screws the catalogue does not list",
  why:
    "A hole that names a family nobody lists can be locked by no screw of the set. " +
    "A catalogue without any screws is meant to be read beside another one, and is not asked.",
  grade: "warning",
  basis: ownFigures,
  wrong: {
    change: [
      ["hole P1, top 40 mm, runs medial-lateral, takes peg", "hole P1, top 40 mm, runs medial-lateral, takes pegs"],
    ],
    of: "catalogue",
  },
  right: { change: [], of: "catalogue" },
  check: overCatalogue(({ nails, screws }) => {
    const holes = screws.length === 0 ? [] : nails.flatMap((nail) => nail.holes);
    return {
      found: holes.flatMap((hole) =>
        hole.takes
          .filter(({ text }) => screws.every(({ name }) => name.text !== text))
          .map((family) => unlisted(hole.name.text, family, screws)),
      ),
    };
  }),
};

function unlisted(hole: string, family: Said, screws: readonly ScrewFamily[]): Found {
  const name = nearest(
    family.text,
    screws.map((each) => each.name.text),
  );
  const near = screws.find((each) => each.name.text === name);
  return {
    place: family.place,
    message: `Hole ${hole} takes ${quoted(family.text)}; the catalogue lists no screws of that name.`,
    at: hole,
    ...(near === undefined ? {} : meant(family, near)),
  };
}

/** The family whose name is nearest, pointed to and put in. */
function meant(family: Said, { name: { text }, place }: ScrewFamily): Pick<Found, "related" | "fixes"> {
  const edits = [{ span: family.place.span, text }];
  return {
    related: [{ place, message: `The catalogue lists ${quoted(text)}.` }],
    fixes: [{ title: `takes ${family.text} → ${text}`, class: "needs a choice", edits }],
  };
}
