/**
 * A hole that takes a family of screws that its catalogue does not list.
 */
import { nearest } from "../../grammar/nearest.ts";
import type { Said } from "../meaning/plan.ts";
import { type OwnFiguresRule, overCatalogue, ownFigures } from "./catalogue-checks.ts";
import type { Fix, Found } from "./finding.ts";
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
      ["hole P1, top 40 mm, runs medial-lateral, takes peg", "hole P1, top 40 mm, runs medial-lateral, takes peg, pin"],
    ],
    of: "catalogue",
  },
  right: { change: [], of: "catalogue" },
  check: overCatalogue(({ nails, screws }) => {
    const listed = screws.map(({ name }) => name.text);
    const holes = listed.length === 0 ? [] : nails.flatMap((nail) => nail.holes);
    return {
      found: holes.flatMap((hole) =>
        hole.takes
          .filter(({ text }) => !listed.includes(text))
          .map((family) => unlisted(hole.name.text, family, listed)),
      ),
    };
  }),
};

function unlisted(hole: string, family: Said, listed: readonly string[]): Found {
  const near = nearest(family.text, listed);
  const fixes: readonly Fix[] =
    near === undefined
      ? []
      : [
          {
            title: `takes ${family.text} → ${near}`,
            class: "needs a choice",
            edits: [{ span: family.place.span, text: near }],
          },
        ];
  return {
    place: family.place,
    message: `Hole ${hole} takes ${quoted(family.text)}; the catalogue lists no screws of that name.`,
    at: hole,
    fixes,
  };
}
