/**
 * The length there is room for, and the listed lengths on either side of it with how likely each fits. Where the tip then lies
 * is in `tip.ts`.
 */
import type { Plan } from "../meaning/plan.ts";
import { compare, exact, isExact, subtract, unknown } from "../quantity/arithmetic.ts";
import { printPercent, printValue } from "../quantity/print.ts";
import { probabilityAbove } from "../quantity/probability.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { ascending, farJointOf, isOtherBone, isUnknown, nailUnlisted, scarOf, sunkOf } from "./given.ts";
import type { Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import {
  called,
  fixedOperand,
  isKnown,
  type KnownOperand,
  type Operand,
  operandOf,
  reckoned,
  unknownOperand,
  type Written,
  written,
} from "./writing.ts";

const practice: Basis = { mark: "common practice", text: "common practice, no single source: tip at the physeal scar" };
const catalogue: Basis = { mark: "catalogue", text: "the lengths the catalogue lists for the nail" };
const geometry: Basis = { mark: "computed", text: "difference of two lengths" };

/** Taken off the tibia's plafond when no scar is given; printed with the answer wherever it is used. */
const plafondMargin = 15;
const marginUntold = "no landmark scar is given, and how far a nail stays off the joint is known for the tibia alone";

/** `length.available`, and where lengths are listed `.longest`, `.margin`, `.next`, `.nextMargin`, all in mm. */
export const reckonLength: Subject = ({ plan }) => {
  const available = availableLength(plan);
  return [available, ...listedLengths(plan, operandOf(available, "available"))];
};

function availableLength(plan: Plan): Reckoning {
  const sunk = sunkOf(plan);
  const scar = scarOf(plan);
  const joint = farJointOf(plan);
  const record = (limit: Quantity, by: Written, remark?: string): Reckoning =>
    reckoned({
      id: "length.available",
      label: "length there is room for",
      answer: subtract(limit, sunk.quantity),
      unit: "mm",
      by,
      basis: practice,
      remark,
    });
  if (scar !== undefined) {
    return record(scar.quantity, written`${scar} - ${sunk}`);
  }
  if (isOtherBone(plan)) {
    const missing = unknownOperand("scar", unknown(marginUntold));
    return record(missing.quantity, written`${missing} - ${sunk}`);
  }
  if (joint !== undefined) {
    const margin = fixedOperand("margin", exact(plafondMargin, "mm"), "mm");
    const remark = `no scar is given: the limit is taken ${plafondMargin} mm short of the plafond`;
    return record(subtract(joint.quantity, margin.quantity), written`${joint} - ${margin} - ${sunk}`, remark);
  }
  const missing = unknownOperand("scar", unknown("neither a landmark scar nor a landmark plafond is given"));
  return record(missing.quantity, written`${missing} - ${sunk}`);
}

function listedLengths(plan: Plan, available: Operand): readonly Reckoning[] {
  const lengths =
    plan.nail === undefined ? unknown(nailUnlisted(plan)) : ascending(plan.nail.lengths, "length", "the nail");
  if (!isKnown(available) || isUnknown(lengths)) {
    const because = isKnown(available) && isUnknown(lengths) ? lengths : available.quantity;
    const blank = (name: string): Operand => fixedOperand(name, because, "mm");
    return [...longestListed(blank("longest"), available), ...nextListed(blank("next"), available)];
  }
  const fits = (length: KnownOperand): boolean => compare(length.quantity, available.quantity) <= 0;
  const longest = lengths.filter(fits).at(-1) ?? unknownOperand("longest", unknown("every listed length is too long"));
  const next = lengths.find((length) => !fits(length));
  return [
    ...longestListed(called(longest, "longest"), available),
    ...(next === undefined ? [] : nextListed(called(next, "next"), available)),
  ];
}

function longestListed(longest: Operand, available: Operand): readonly Reckoning[] {
  return [
    reckoned({
      id: "length.longest",
      label: "longest listed length that fits",
      answer: longest.quantity,
      unit: "mm",
      by: written`longest listed ≤ ${available}`,
      basis: catalogue,
    }),
    reckoned({
      id: "length.margin",
      label: "room left by the longest listed length that fits",
      answer: subtract(available.quantity, longest.quantity),
      unit: "mm",
      by: written`${available} - ${longest}`,
      basis: geometry,
      remark: chance(longest, available),
    }),
  ];
}

function nextListed(next: Operand, available: Operand): readonly Reckoning[] {
  return [
    reckoned({
      id: "length.next",
      label: "next longer listed length",
      answer: next.quantity,
      unit: "mm",
      by: written`shortest listed > ${available}`,
      basis: catalogue,
    }),
    reckoned({
      id: "length.nextMargin",
      label: "by how much the next longer listed length is too long",
      answer: subtract(next.quantity, available.quantity),
      unit: "mm",
      by: written`${next} - ${available}`,
      basis: geometry,
      remark: chance(next, available),
    }),
  ];
}

/** How likely a length is to fit; nothing to say when both are exact. */
function chance({ quantity: length }: Operand, { quantity: room }: Operand): (() => string) | undefined {
  if (length.kind === "unknown" || room.kind === "unknown" || (isExact(length) && isExact(room))) {
    return undefined;
  }
  // What is uncertain is never certain, though a double may round it to 0 or 1.
  const share = (): number => Math.min(Math.max(probabilityAbove(room, length), Number.MIN_VALUE), 1 - Number.EPSILON);
  return () => `probability that ${printValue(length, "mm")} fits: ${printPercent(share())}`;
}
