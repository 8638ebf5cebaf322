/**
 * How a length that was read on a view stands in a formula: the number on the image over the magnification of the view. The true
 * length is divided where it is typed; nothing is computed here.
 */
import type { Typed } from "../meaning/plan.ts";
import { printValue } from "../quantity/print.ts";
import { earlier, type Ledger } from "./ledger.ts";
import { fixedOperand, givenOperand, type Operand, type Written, written } from "./writing.ts";

/** The typed length as an operand that shows its reading: "416 mm / 1.15" instead of "361.7 mm". */
export function readOperand(name: string, typed: Typed): Operand {
  const operand = givenOperand(name, "mm", typed);
  const { reading } = typed;
  if (reading === undefined || operand.quantity.kind === "unknown") {
    return operand;
  }
  return { ...operand, text: () => `${printValue(reading.raw, "mm")} / ${shortly(reading.magnification)}` };
}

/** "scar on ap / magnification of ap"; the name alone for a length that was not read on a view with a scale. */
export function writtenAsRead(ledger: Ledger, operand: Operand, typed: Typed | undefined): Written {
  if (typed?.reading === undefined || operand.quantity.kind === "unknown") {
    return written`${operand}`;
  }
  const { raw, view, magnification } = typed.reading;
  const scale = earlier(ledger, `magnification.${view}`, `magnification of ${view}`);
  const read = fixedOperand(`${operand.name} on ${view}`, raw, "mm", [typed.place]);
  return written`${read} / ${{ ...scale, text: () => shortly(magnification) }}`;
}

/** The magnification as it is printed, without the zeros that only its ± asks for. */
function shortly(magnification: Typed["quantity"]): string {
  return printValue(magnification, "1")
    .replace(/(\.\d*?)0+$/, "$1")
    .replace(/\.$/, "");
}
