/**
 * Writing a compression anew in the unit it was typed in: turns of the compression screw in quarters, or a length. How much is right is
 * for the rules to say.
 */
import type { CompressStep, Plan } from "../meaning/plan.ts";
import { compare, constant, divide, multiply, subtract } from "../quantity/arithmetic.ts";
import { minimum, roundDown } from "../quantity/elementary.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { dimensionOf, sameDimension } from "../quantity/units.ts";
import { stepsOf } from "../reckoning/given.ts";
import type { Fix } from "./finding.ts";
import { isLength } from "./listed-sizes.ts";

const quarter = constant(0.25, "turns");
const oneTurn = constant(1, "turns");
const none = constant(0, "mm");
/** Enough to turn any compression screw back to nothing. */
const mostTries = 300;

/** The only compression of the plan; undefined when there are several, whose sum cannot be shared out. */
function onlyCompression(plan: Plan): CompressStep | undefined {
  const [only, another] = stepsOf(plan, "compress");
  return another === undefined ? only : undefined;
}

/** The most the catalogue and the protocol let the compression screw travel. */
export function mostCompression(plan: Plan, limit: Quantity | undefined): Quantity | undefined {
  const travel = plan.nail?.compression?.travel?.quantity;
  const ends = [travel, limit].filter((end) => end !== undefined);
  return ends.length === 0 ? undefined : minimum(ends);
}

/**
 * Less compression, at most `most` as a length and so little that `keeps` holds of it; `said` ends the title. None when that would be
 * nothing at all.
 */
export function turnDown(
  plan: Plan,
  most: Quantity,
  said: (length: Known) => string,
  keeps: (length: Known) => boolean = () => true,
): readonly Fix[] {
  const typed = onlyCompression(plan)?.amount;
  if (typed === undefined || typed.quantity.kind === "unknown") return [];
  const less = lessThan(plan, typed.quantity, most, keeps);
  if (less === undefined) return [];
  const before = printValue(typed.quantity, less.unit);
  const after = printValue(less.amount, less.unit);
  return [
    {
      title: `compress ${before} → ${after}: ${said(less.length)}`,
      class: "changes a decision",
      edits: [{ span: typed.place.span, text: after }],
    },
  ];
}

/** Goes down in quarters of a turn, or in tenths of a millimetre, as far as it takes. */
function lessThan(plan: Plan, typed: Known, most: Quantity, keeps: (length: Known) => boolean): Less | undefined {
  let rest = most;
  for (let tries = 0; tries < mostTries; tries++) {
    const less = inTypedUnit(plan, typed, rest);
    if (less === undefined || compare(less.length, none) <= 0) return undefined;
    if (keeps(less.length)) return less;
    rest = subtract(less.length, constant(0.1, "mm"));
  }
  return undefined;
}

interface Less {
  readonly amount: Known;
  readonly length: Known;
  readonly unit: "turns" | "mm";
}

function inTypedUnit(plan: Plan, typed: Known, most: Quantity): Less | undefined {
  if (!sameDimension(typed.dimension, dimensionOf("rotation"))) {
    const length = roundDown(most, constant(0.1, "mm"));
    return isLength(length) ? { amount: length, length, unit: "mm" } : undefined;
  }
  const pitch = plan.nail?.compression?.pitch?.quantity;
  if (pitch === undefined) return undefined;
  const perTurn = divide(pitch, oneTurn);
  const amount = roundDown(divide(most, perTurn), quarter);
  const length = multiply(amount, perTurn);
  return amount.kind === "known" && isLength(length) ? { amount, length, unit: "turns" } : undefined;
}
