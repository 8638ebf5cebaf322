/**
 * Stiffness of the nail as a round tube. Teaching estimates: holes, slots and bends of a real nail are left out, and nothing here
 * says what a nail will bear.
 */
import type { Plan } from "../meaning/plan.ts";
import { compare, multiply, scale, subtract, unknown } from "../quantity/arithmetic.ts";
import { power } from "../quantity/elementary.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { listedOf, nailDiameterOf } from "./given.ts";
import type { Subject } from "./ledger.ts";
import type { Basis } from "./reckoning.ts";
import { called, isKnown, type Operand, reckoned, written } from "./writing.ts";

const tube: Basis = { mark: "computed", text: "beam theory: second moment of area of a round tube, π(D⁴ - bore⁴)/64" };
const estimate = "teaching estimate for a plain closed tube, without holes, slot or bend";

/** `nail.bending` in N·m². */
export const reckonMechanics: Subject = ({ plan }) => {
  const modulus = modulusOf(plan);
  const diameter = called(nailDiameterOf(plan), "D", "⁴");
  const bore = boreOf(plan);
  return [
    reckoned({
      id: "nail.bending",
      label: "bending stiffness of the nail",
      answer: multiply(modulus.quantity, secondMoment(diameter, bore)),
      unit: "N·m²",
      by: written`${modulus} × π × (${diameter} - ${called(bore, "bore", "⁴")}) / 64`,
      basis: tube,
      remark: estimate,
    }),
  ];
};

export function modulusOf(plan: Plan): Operand {
  return listedOf(plan, "E", "GPa", plan.nail?.modulus, "modulus");
}

/** A solid nail is written with a bore of 0 mm; a bore that is not listed is not taken for none. */
export function boreOf(plan: Plan): Operand {
  return listedOf(plan, "bore", "mm", plan.nail?.bore, "bore");
}

/** π(D⁴ - bore⁴)/64 in mm⁴; unknown when no wall is left. */
export function secondMoment(diameter: Operand, bore: Operand): Quantity {
  if (isKnown(diameter) && isKnown(bore) && compare(bore.quantity, diameter.quantity) >= 0) {
    return unknown("the bore is as wide as the nail");
  }
  return scale(subtract(power(diameter.quantity, 4), power(bore.quantity, 4)), Math.PI / 64);
}
