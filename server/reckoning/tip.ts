/**
 * Where the tip of the nail lies, how much room is left to the scar and to the joint, and where it moves when a slot at that end is
 * set free. Room is positive while the tip stops short.
 */
import { add, subtract, unknown } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { freedEnd } from "./dynamisation.ts";
import { farJointMissing, farJointName, farJointOf, nailLengthOf, scarOf, sunkOf } from "./given.ts";
import { earlier, type Ledger, type Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { type Operand, operandOf, reckoned, unknownOperand, type Written, written } from "./writing.ts";

const basis: Basis = { mark: "computed", text: "geometry along the canal's axis" };

/** `nail.tip`, `nail.tipDynamised`, `tip.toScar` and `tip.toPlafond`, in mm. */
export const reckonTip: Subject = (ledger) => {
  const { plan } = ledger;
  const sunk = sunkOf(plan);
  const length = nailLengthOf(plan);
  const lies = lengthOf(
    "nail.tip",
    "tip of the nail",
    add(sunk.quantity, length.quantity),
    written`${sunk} + ${length}`,
  );
  const tip = operandOf(lies, "tip");
  const scar = scarOf(plan);
  const joint = farJointOf(plan);
  const far = farJointName(plan) === "plafond" ? "plafond" : "far joint";
  return [
    lies,
    ...dynamised(ledger, tip),
    // Without a scar the joint is the limit, and nothing is missing.
    ...(scar === undefined && joint !== undefined
      ? []
      : [room("tip.toScar", "tip of the nail to the scar", scar ?? missing("scar", "no landmark scar is given"), tip)]),
    room(
      "tip.toPlafond",
      `tip of the nail to the ${far}`,
      joint ?? missing(farJointName(plan), farJointMissing(plan)),
      tip,
    ),
  ];
};

function dynamised(ledger: Ledger, tip: Operand): readonly Reckoning[] {
  if (!ledger.byId.has("dynamisation.left") || freedEnd(ledger.plan) !== "tip") {
    return [];
  }
  const left = earlier(ledger, "dynamisation.left", "slot travel left");
  const answer = add(tip.quantity, left.quantity);
  return [lengthOf("nail.tipDynamised", "tip of the nail once dynamised", answer, written`${tip} + ${left}`)];
}

function room(id: string, label: string, limit: Operand, tip: Operand): Reckoning {
  return lengthOf(id, label, subtract(limit.quantity, tip.quantity), written`${limit} - ${tip}`);
}

function missing(name: string, because: string): Operand {
  return unknownOperand(name, unknown(because));
}

function lengthOf(id: string, label: string, answer: Quantity, by: Written): Reckoning {
  return reckoned({ id, label, answer, unit: "mm", by, basis });
}
