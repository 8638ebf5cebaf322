/**
 * Stiffness of the nail as a round tube. Teaching estimates: holes, slots and bends of a real nail are left out, and nothing here
 * says what a nail will bear.
 */
import type { Plan } from "../meaning/plan.ts";
import { add, compare, divide, multiply, plain, scale, subtract, unknown } from "../quantity/arithmetic.ts";
import { power } from "../quantity/elementary.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { listedOf, nailDiameterOf, nailUnlisted } from "./given.ts";
import type { Subject } from "./ledger.ts";
import type { Basis } from "./reckoning.ts";
import {
  called,
  fixedOperand,
  isKnown,
  type Operand,
  operandOf,
  reckoned,
  unknownOperand,
  written,
} from "./writing.ts";

const tube: Basis = { mark: "computed", text: "beam theory: second moment of area of a round tube, π(D⁴ - bore⁴)/64" };
const estimate = "teaching estimate for a plain closed tube, without holes, slot or bend";

const rod: Basis = {
  mark: "computed",
  text: "beam theory: J = 2 I and G = E / (2 (1 + ν)); ν 0.31 of a titanium alloy (ASTM F136)",
};

/** Poisson's ratio by the catalogue's word for the material; others are not known here. */
const poisson: ReadonlyMap<string, number> = new Map([["titanium-alloy", 0.31]]);

/** `nail.bending` and `nail.torsion` in N·m². */
export const reckonMechanics: Subject = ({ plan }) => {
  const modulus = modulusOf(plan);
  const diameter = called(nailDiameterOf(plan), "D", "⁴");
  const bore = called(boreOf(plan), "bore", "⁴");
  const bending = reckoned({
    id: "nail.bending",
    label: "bending stiffness of the nail",
    answer: multiply(modulus.quantity, secondMoment(diameter, bore)),
    unit: "N·m²",
    by: written`${modulus} × π × (${diameter} - ${bore}) / 64`,
    basis: tube,
    remark: estimate,
  });
  const stiffness = operandOf(bending, "bending stiffness");
  const ratio = poissonOf(plan);
  return [
    bending,
    reckoned({
      id: "nail.torsion",
      label: "torsional stiffness of the nail",
      // G J = E / (2 (1 + ν)) × 2 I
      answer: divide(stiffness.quantity, add(plain(1), ratio.quantity)),
      unit: "N·m²",
      by: written`${stiffness} / (1 + ${ratio})`,
      basis: rod,
      remark: estimate,
    }),
  ];
};

function poissonOf(plan: Plan): Operand {
  const material = plan.nail?.material;
  if (plan.nail === undefined || material === undefined) {
    const missing = plan.nail === undefined ? nailUnlisted(plan) : `nail ${plan.nail.name.text} lists no material`;
    return unknownOperand("ν", unknown(missing));
  }
  const ratio = poisson.get(material.text);
  const quantity =
    ratio === undefined ? unknown(`Poisson's ratio of ${material.text} is not known here`) : plain(ratio);
  return fixedOperand("ν", quantity, "1", [material.place]);
}

export function modulusOf(plan: Plan): Operand {
  return listedOf(plan, "E", "GPa", plan.nail?.modulus, "modulus");
}

/** A solid nail is written with a bore of 0 mm; a bore that is not listed is not taken for none. */
export function boreOf(plan: Plan): Operand {
  return listedOf(plan, "bore", "mm", plan.nail?.bore, "bore");
}

/** π(D² - bore²)/4 in mm². */
export function wallArea(diameter: Operand, bore: Operand): Quantity {
  return scale(subtract(power(diameter.quantity, 2), power(bore.quantity, 2)), Math.PI / 4);
}

/** π(D⁴ - bore⁴)/64 in mm⁴; unknown when no wall is left. */
function secondMoment(diameter: Operand, bore: Operand): Quantity {
  if (isKnown(diameter) && isKnown(bore) && compare(bore.quantity, diameter.quantity) >= 0) {
    return unknown("the bore is as wide as the nail");
  }
  return scale(subtract(power(diameter.quantity, 4), power(bore.quantity, 4)), Math.PI / 64);
}
