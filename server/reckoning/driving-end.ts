/**
 * Where the nail's driving end lies when it is in, and where it ends up after backslap, compression and dynamisation; the cap on it;
 * how far it must be sunk for that. Levels below 0 stand proud of the bone.
 */
import type { Plan } from "../meaning/plan.ts";
import { add, compare, constant, subtract, unknown } from "../quantity/arithmetic.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { freedEnd } from "./dynamisation.ts";
import { stepsOf, sunkOf } from "./given.ts";
import { earlier, type Ledger, type Subject } from "./ledger.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import {
  fixedOperand,
  isKnown,
  type Operand,
  operandOf,
  reckoned,
  typedOperand,
  type Written,
  written,
  writtenList,
} from "./writing.ts";

const basis: Basis = { mark: "computed", text: "geometry along the canal's axis" };

/** `nail.top`, `nail.topAfter`, `nail.topDynamised`, `cap.top`, `overinsertion.needed`, in mm. */
export const reckonDrivingEnd: Subject = (ledger) => {
  const { plan } = ledger;
  const sunk = sunkOf(plan);
  const drawn = drawnBack(ledger);
  const lastly = drawn.reduce((rest, part) => subtract(rest, part.quantity), sunk.quantity);
  const top = level("nail.top", "driving end of the nail", written`${sunk}`, sunk.quantity);
  const by = writtenList("", [sunk, ...drawn], " - ", "");
  const after = level("nail.topAfter", "driving end of the nail after the operation", by, lastly);
  const topAfter = operandOf(after, "top after");
  return [top, after, ...dynamised(ledger, topAfter), ...cap(plan, topAfter), needed(ledger, drawn)];
};

/** What draws the driving end back during the operation. */
function drawnBack(ledger: Ledger): readonly Operand[] {
  const backslaps = stepsOf(ledger.plan, "backslap").map(({ amount }) =>
    typedOperand("backslap", "mm", amount, "it is not given how far the nail is drawn back"),
  );
  const compressed = ledger.byId.has("compression.amount");
  return compressed ? [...backslaps, earlier(ledger, "compression.amount", "compression")] : backslaps;
}

function dynamised(ledger: Ledger, after: Operand): readonly Reckoning[] {
  const left = travelAtDrivingEnd(ledger);
  if (left === undefined) {
    return [];
  }
  const answer = subtract(after.quantity, left.quantity);
  return [level("nail.topDynamised", "driving end of the nail once dynamised", written`${after} - ${left}`, answer)];
}

/** The travel a dynamisation through a slot at the driving end sets free; undefined when none is planned there. */
function travelAtDrivingEnd(ledger: Ledger): Operand | undefined {
  const planned = ledger.byId.get("dynamisation.left");
  if (planned === undefined) {
    return undefined;
  }
  const left = operandOf(planned, "slot travel left");
  const freed = freedEnd(ledger.plan);
  if (freed === "tip" || freed === "neither") {
    return undefined;
  }
  const overrun = isKnown(left) && compare(left.quantity, constant(0, "mm")) < 0;
  return overrun ? { ...left, quantity: unknown("the compression is longer than the slot") } : left;
}

function cap(plan: Plan, after: Operand): readonly Reckoning[] {
  const step = stepsOf(plan, "cap")[0];
  if (step === undefined || step.none) {
    return [];
  }
  const extension = typedOperand("cap", "mm", step.extension, "the extension of the cap is not given");
  const answer = subtract(after.quantity, extension.quantity);
  return [level("cap.top", "top of the end cap", written`${after} - ${extension}`, answer)];
}

function needed(ledger: Ledger, drawn: readonly Operand[]): Reckoning {
  const left = travelAtDrivingEnd(ledger);
  const parts = left === undefined ? drawn : [...drawn, left];
  const none = fixedOperand("nothing draws the nail back", constant(0, "mm"), "mm", [ledger.plan.operation]);
  return reckoned({
    id: "overinsertion.needed",
    label: "over-insertion needed",
    answer: parts.reduce((sum, part) => add(sum, part.quantity), none.quantity),
    unit: "mm",
    by: writtenList("", parts.length === 0 ? [none] : parts, " + ", ""),
    basis,
  });
}

function level(id: string, label: string, by: Written, answer: Quantity): Reckoning {
  return reckoned({ id, label, answer, unit: "mm", by, basis });
}
