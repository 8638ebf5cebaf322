/**
 * How far the compression screw draws the fragments together, what is left of its travel and what is left of the gap. What that
 * does to the driving end is in `driving-end.ts`.
 */
import type { CompressStep, Plan, Typed } from "../meaning/plan.ts";
import { add, constant, divide, multiply, subtract } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { dimensionOf, sameDimension } from "../quantity/units.ts";
import { gapOf, listedOf, stepsOf } from "./given.ts";
import type { Subject } from "./ledger.ts";
import type { Basis } from "./reckoning.ts";
import {
  givenOperand,
  type Operand,
  operandOf,
  reckoned,
  typedOperand,
  type Written,
  written,
  writtenAfter,
} from "./writing.ts";

const pitched: Basis = { mark: "catalogue", text: "the pitch the catalogue lists for the nail's compression screw" };
const direct: Basis = { mark: "computed", text: "as typed" };
const travelled: Basis = { mark: "catalogue", text: "the travel the catalogue lists for the nail's compression screw" };
const geometry: Basis = { mark: "computed", text: "difference of two lengths" };

/** `compression.amount`, `.left` and `.gapLeft`, in mm; absent when no compression is planned. */
export const reckonCompression: Subject = ({ plan }) => {
  const parts = stepsOf(plan, "compress").map((step) => advance(plan, step));
  const [first, ...rest] = parts;
  if (first === undefined) {
    return [];
  }
  const turned = parts.some((part) => part.turned);
  const amount = reckoned({
    id: "compression.amount",
    label: "compression",
    answer: rest.reduce((sum, part) => add(sum, part.quantity), first.quantity),
    unit: "mm",
    by: rest.reduce((sum, part) => writtenAfter(writtenAfter(sum, written` + `), part.by), first.by),
    basis: turned ? pitched : direct,
  });
  const compression = operandOf(amount, "compression");
  const travel = listedOf(plan, "travel", "mm", plan.nail?.compression?.travel, "compression travel");
  const gap = gapOf(plan);
  return [
    amount,
    reckoned({
      id: "compression.left",
      label: "travel left in the compression screw",
      answer: subtract(travel.quantity, compression.quantity),
      unit: "mm",
      by: written`${travel} - ${compression}`,
      basis: travelled,
    }),
    reckoned({
      id: "compression.gapLeft",
      label: "gap left after compression",
      answer: subtract(gap.quantity, compression.quantity),
      unit: "mm",
      by: written`${gap} - ${compression}`,
      basis: geometry,
      remark: "below 0 the bone is shortened by that much",
    }),
  ];
};

interface Advance {
  readonly quantity: Quantity;
  readonly by: Written;
  readonly turned: boolean;
}

/** One compress step as a length: turns times pitch, or the length as typed. */
function advance(plan: Plan, { amount }: CompressStep): Advance {
  if (amount === undefined || !isTurns(amount)) {
    const length = typedOperand("compression", "mm", amount, "it is not given how far to compress");
    return { quantity: length.quantity, by: written`${length}`, turned: false };
  }
  const turns = givenOperand("turns", "turns", amount);
  const pitch = pitchOf(plan);
  return { quantity: multiply(turns.quantity, pitch.quantity), by: written`${turns} × ${pitch}`, turned: true };
}

function isTurns({ quantity }: Typed): boolean {
  return quantity.kind === "known" && sameDimension(quantity.dimension, dimensionOf("rotation"));
}

/** The catalogue writes the pitch as the length of one turn. */
function pitchOf(plan: Plan): Operand {
  const pitch = listedOf(plan, "pitch", "mm", plan.nail?.compression?.pitch, "pitch of a compression screw");
  return { ...pitch, quantity: divide(pitch.quantity, constant(1, "turns")), unit: "mm/turn" };
}
