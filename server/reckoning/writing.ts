/**
 * How a reckoning is put on paper: operands with a name and a number, formulas written with them, and the record made of both.
 * The formula in symbols, the formula with numbers and the places all come from the same operands, so they cannot disagree.
 */
import type { Place, Typed } from "../meaning/plan.ts";
import { ofDimension, unknown } from "../quantity/arithmetic.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { unit as unitOf } from "../quantity/units.ts";
import type { Answer, Basis, Reckoning } from "./reckoning.ts";

/** One number in a formula: the symbol it goes by, its value, the unit it is shown in and where it was typed. */
export interface Operand {
  readonly name: string;
  readonly quantity: Quantity;
  readonly unit: string;
  readonly from: readonly Place[];
}

export interface KnownOperand extends Operand {
  readonly quantity: Known;
}

/** A formula in symbols, the same with its numbers (made when asked for), and the places of its operands. */
export interface Written {
  readonly formula: string;
  readonly filled: () => string;
  readonly from: readonly Place[];
}

/** What a subject says of one reckoning; `by` is its formula. */
interface Parts {
  readonly id: string;
  readonly label: string;
  readonly answer: Answer;
  readonly unit: string;
  readonly by: Written;
  readonly basis: Basis;
  readonly remark?: string | undefined;
}

/** A formula as a template: `written` with `${sunk} + ${length}` gives "sunk + length" and "8 mm + 345 mm". */
export function written(texts: TemplateStringsArray, ...operands: readonly Operand[]): Written {
  return joined(texts, operands);
}

/** Operands with the same sign between them, and texts round the whole: "min(a, b, c)", "a - b - c". */
export function writtenList(before: string, operands: readonly Operand[], between: string, after: string): Written {
  const [, ...rest] = operands;
  return joined(operands.length === 0 ? [before + after] : [before, ...rest.map(() => between), after], operands);
}

/** Formulas one after the other: "2 × pitch + 1 mm". */
export function writtenSum(parts: readonly Written[]): Written {
  return {
    formula: parts.map((part) => part.formula).join(" + "),
    filled: () => parts.map((part) => part.filled()).join(" + "),
    from: distinct(parts.flatMap((part) => part.from)),
  };
}

/** The record of one reckoning. The filled formula is printed only when a face asks for it. */
export function reckoned({ id, label, answer, unit, by, basis, remark }: Parts): Reckoning {
  return {
    id,
    label,
    answer,
    unit,
    formula: by.formula,
    get filled() {
      return by.filled();
    },
    from: by.from,
    basis,
    ...(remark === undefined || remark === "" ? {} : { remark }),
  };
}

/**
 * A typed value as an operand; `missing` is the reason it is unknown when nothing was typed. A value of another dimension than
 * its unit's is unknown too.
 */
export function typedOperand(name: string, unit: string, typed: Typed | undefined, missing: string): Operand {
  if (typed === undefined) {
    return fixedOperand(name, unknown(missing), unit);
  }
  const dimension = unitOf(unit)?.dimension;
  const quantity = dimension === undefined ? typed.quantity : ofDimension(typed.quantity, dimension);
  return { name, quantity, unit, from: [typed.place] };
}

export function isKnown(operand: Operand): operand is KnownOperand {
  return operand.quantity.kind === "known";
}

/** An answer just reckoned as an operand of the next formula. */
export function operandOf({ answer, unit, from, label }: Reckoning, name: string): Operand {
  const quantity = answer.kind === "word" ? unknown(`${label} is a word, not a number`) : answer;
  return { name, quantity, unit, from };
}

/** A value that was made here rather than typed: a fallback margin, the acceleration of gravity. */
export function fixedOperand(name: string, quantity: Quantity, unit: string): Operand {
  return { name, quantity, unit, from: [] };
}

function joined(texts: readonly string[], operands: readonly Operand[]): Written {
  const weave = (word: (operand: Operand) => string): string =>
    texts.map((text, index) => text + (operands[index] === undefined ? "" : word(operands[index]))).join("");
  return {
    formula: weave((operand) => operand.name),
    filled: () => weave(({ quantity, unit }) => inFormula(printValue(quantity, unit))),
    from: distinct(operands.flatMap((operand) => operand.from)),
  };
}

/** A negative number stands in brackets, so that no two signs meet. */
function inFormula(printed: string): string {
  return printed.startsWith("-") ? `(${printed})` : printed;
}

function distinct(places: readonly Place[]): readonly Place[] {
  const seen = new Set<string>();
  return places.filter(({ file, span }) => {
    const key = `${span.start}:${span.end}:${file}`;
    return seen.has(key) ? false : seen.add(key);
  });
}
