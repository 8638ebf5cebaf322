/**
 * The pressure gradient of a muscle compartment: diastolic pressure less compartment pressure. What follows from it is judged
 * elsewhere.
 */
import { subtract } from "../quantity/arithmetic.ts";
import { minimum } from "../quantity/elementary.ts";
import type { Subject } from "./ledger.ts";
import type { Basis } from "./reckoning.ts";
import { type Operand, reckoned, typedOperand, written } from "./writing.ts";

const basis: Basis = {
  mark: "printed",
  text: "McQueen and Court-Brown, J Bone Joint Surg Br 1996;78-B:99-104",
};

/** `compartment.gradient` in mmHg, the smallest where several are given; absent when no pressure is given. */
export const reckonCompartment: Subject = ({ plan }) => {
  const watches = plan.aftercare?.watches ?? [];
  const pairs = watches
    .filter(({ diastolic, pressure }) => diastolic !== undefined || pressure !== undefined)
    .map(({ diastolic, pressure }) => ({
      diastolic: typedOperand("diastolic", "mmHg", diastolic, "no diastolic pressure is given"),
      pressure: typedOperand("pressure", "mmHg", pressure, "no compartment pressure is given"),
    }));
  const gradients = pairs.map((pair) => ({ ...pair, gradient: difference(pair) }));
  const least = minimum(gradients.map(({ gradient }) => gradient));
  const at = gradients.find(({ gradient }) => gradient === least);
  if (at === undefined) {
    return [];
  }
  return [
    reckoned({
      id: "compartment.gradient",
      label: "diastolic pressure less compartment pressure",
      answer: least,
      unit: "mmHg",
      by: written`${at.diastolic} - ${at.pressure}`,
      basis,
      remark: pairs.length > 1 ? "the smallest of those given" : undefined,
    }),
  ];
};

function difference({ diastolic, pressure }: { readonly diastolic: Operand; readonly pressure: Operand }) {
  return subtract(diastolic.quantity, pressure.quantity);
}
