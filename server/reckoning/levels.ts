/**
 * The landmarks and the fracture on the one axis all levels live on: distance in mm along the canal from the entry point. The
 * readings were already divided by their view's magnification where they were typed.
 */
import type { Typed } from "../meaning/plan.ts";
import { add, scale } from "../quantity/arithmetic.ts";
import { writtenAsRead } from "./as-read.ts";
import { typedEdgesOf } from "./given.ts";
import type { Ledger, Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { called, givenOperand, type Operand, reckoned, written } from "./writing.ts";

const basis: Basis = {
  mark: "computed",
  text: "reading over the magnification of its view; uncertainty after JCGM 100:2008, 5.1.2 and 5.2",
};

/** `level.NAME` of each landmark, `level.fracture.from`, `.to` and `.centre` (their mean), in mm. */
export const reckonLevels: Subject = (ledger) => [
  ...ledger.plan.measures.landmarks.map((landmark) => {
    const name = landmark.name.text;
    return level(ledger, `level.${name}`, `level of ${name}`, givenOperand(name, "mm", landmark.level), landmark.level);
  }),
  ...fractureLevels(ledger),
];

function fractureLevels(ledger: Ledger): readonly Reckoning[] {
  const fracture = ledger.plan.case?.fracture;
  if (fracture === undefined) {
    return [];
  }
  const { from, to } = typedEdgesOf(ledger.plan);
  return [
    level(ledger, "level.fracture.from", "near edge of the fracture", called(from, "near edge"), fracture.from),
    level(ledger, "level.fracture.to", "far edge of the fracture", called(to, "far edge"), fracture.to),
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

function level(ledger: Ledger, id: string, label: string, operand: Operand, typed: Typed | undefined): Reckoning {
  const by = writtenAsRead(ledger, operand, typed);
  return reckoned({ id, label, answer: operand.quantity, unit: "mm", by, basis });
}
