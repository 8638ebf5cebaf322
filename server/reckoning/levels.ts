/**
 * The landmarks and the fracture on the one axis all levels live on: distance in mm along the canal from the entry point. The
 * readings were already divided by their view's magnification where they were typed.
 */
import { add, scale } from "../quantity/arithmetic.ts";
import { typedEdgesOf } from "./given.ts";
import type { Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { type Operand, reckoned, typedOperand, written } from "./writing.ts";

const basis: Basis = {
  mark: "computed",
  text: "reading over the magnification of its view; uncertainty after JCGM 100:2008, 5.1.2 and 5.2",
};

/** `level.NAME` of each landmark, `level.fracture.from`, `.to` and `.centre` (their mean), in mm. */
export const reckonLevels: Subject = ({ plan }) => [
  ...plan.measures.landmarks.map((landmark) => {
    const name = landmark.name.text;
    return level(`level.${name}`, `level of ${name}`, typedOperand(name, "mm", landmark.level, ""));
  }),
  ...(plan.case?.fracture === undefined ? [] : fractureLevels(typedEdgesOf(plan).from, typedEdgesOf(plan).to)),
];

function fractureLevels(from: Operand, to: Operand): readonly Reckoning[] {
  return [
    level("level.fracture.from", "near edge of the fracture", from),
    level("level.fracture.to", "far edge of the fracture", to),
    reckoned({
      id: "level.fracture.centre",
      label: "centre of the fracture",
      answer: scale(add(from.quantity, to.quantity), 0.5),
      unit: "mm",
      by: written`(${from} + ${to}) / 2`,
      basis,
    }),
  ];
}

function level(id: string, label: string, typed: Operand): Reckoning {
  return reckoned({ id, label, answer: typed.quantity, unit: "mm", by: written`${typed}`, basis });
}
