/**
 * How a reckoning is put on paper: operands with a name and a number, formulas written with them, and the record made of both.
 * The formula in symbols, the formula with numbers and the places all come from the same operands, so they cannot disagree; they
 * are made when a face asks for them, because most reckonings are made at every keystroke and read seldom.
 */
import type { Place, Typed } from "../meaning/plan.ts";
import { ofDimension, unknown } from "../quantity/arithmetic.ts";
import { trusted } from "../quantity/enclosure.ts";
import { printValue } from "../quantity/print.ts";
import type { Known, Quantity, Unknown } from "../quantity/quantity.ts";
import { unit as unitOf } from "../quantity/units.ts";
import type { Answer, Basis, Reckoning } from "./reckoning.ts";

/** One number in a formula: the symbol it goes by, its value, the unit it is shown in and where it was typed. */
export interface Operand {
  readonly name: string;
  readonly quantity: Quantity;
  readonly unit: string;
  readonly from: readonly Place[];
  /** A sign of power written behind it: the number then stands in brackets. */
  readonly raised?: "²" | "³" | "⁴";
  /** How it stands in the formula with numbers, where that is not the number alone. */
  readonly text?: (() => string) | undefined;
}

export interface KnownOperand extends Operand {
  readonly quantity: Known;
}

/** A formula: the operands, the texts around them, and what these alone do not say. */
export interface Written {
  /** One more than operands. */
  readonly texts: readonly string[];
  readonly operands: readonly Operand[];
  /** The formula in symbols where it is not the texts with the operands' names. */
  readonly symbols?: string;
  /** Places of what is not an operand. */
  readonly also?: readonly Place[];
}

/** What a subject says of one reckoning; `by` is its formula. */
interface Parts {
  readonly id: string;
  readonly label: string;
  readonly answer: Answer;
  readonly unit: string;
  readonly by: Written;
  readonly basis: Basis;
  /** Given as a function where it has to be printed. */
  readonly remark?: string | (() => string) | undefined;
}

/** A formula as a template: `written` with `${sunk} + ${length}` gives "sunk + length" and "8 mm + 345 mm". */
export function written(texts: TemplateStringsArray, ...operands: readonly Operand[]): Written {
  return { texts, operands };
}

/** Operands with the same sign between them, and texts round the whole: "min(a, b, c)", "a - b - c". */
export function writtenList(before: string, operands: readonly Operand[], between: string, after: string): Written {
  const [, ...rest] = operands;
  return { texts: operands.length === 0 ? [before + after] : [before, ...rest.map(() => between), after], operands };
}

/** Words instead of a formula, and the places they speak of. */
export function inWords(words: string, also: readonly Place[]): Written {
  return { texts: [words], operands: [], also };
}

/** Formulas one after the other: "turns × pitch", then " + compression". */
export function writtenAfter(first: Written, second: Written): Written {
  const [opening, ...rest] = second.texts;
  return {
    texts: [...first.texts.slice(0, -1), `${first.texts.at(-1)}${opening}`, ...rest],
    operands: [...first.operands, ...second.operands],
    also: [...(first.also ?? []), ...(second.also ?? [])],
  };
}

/** The record of one reckoning. A number its second computation does not bear out is withheld, here and from all that reads it. */
export function reckoned({ id, label, answer: found, unit, by, basis, remark }: Parts): Reckoning {
  const answer = found.kind === "known" ? trusted(found) : found;
  const record: Reckoning = {
    id,
    label,
    answer,
    unit,
    get formula() {
      return by.symbols ?? woven(by, ({ name, raised }) => name + (raised ?? ""));
    },
    get filled() {
      return woven(by, ({ quantity, unit: shown, raised, text }) =>
        text === undefined ? inFormula(printValue(quantity, shown), raised) : text(),
      );
    },
    get from() {
      return distinct([...by.operands.flatMap((operand) => operand.from), ...(by.also ?? [])]);
    },
    basis,
  };
  // What is remarked of a number falls with it.
  if (remark === undefined || remark === "" || answer !== found) {
    return record;
  }
  const words = typeof remark === "string" ? () => remark : remark;
  return Object.defineProperty(record, "remark", { get: words, enumerable: true });
}

/** A value that may have been typed as an operand; `missing` is the reason it is unknown when nothing was. */
export function typedOperand(name: string, unit: string, typed: Typed | undefined, missing: string): Operand {
  return typed === undefined ? unknownOperand(name, unknown(missing)) : givenOperand(name, unit, typed);
}

/** A typed value as an operand; one of another dimension than its unit's is unknown. */
export function givenOperand(name: string, unit: string, typed: Typed): Operand {
  const of = unitOf(unit);
  const quantity = of === undefined ? unknown(`there is no unit ${unit}`) : ofDimension(typed.quantity, of.dimension);
  return { name, quantity, unit, from: [typed.place] };
}

/** An answer just reckoned as an operand of the next formula. */
export function operandOf(reckoning: Reckoning, name: string): Operand {
  const { answer, unit, label } = reckoning;
  const quantity = answer.kind === "word" ? unknown(`${label} is a word, not a number`) : answer;
  return {
    name,
    quantity,
    unit,
    get from() {
      return reckoning.from;
    },
  };
}

/** What is not known, for a reason: it has no number, and so its unit is never shown. */
export function unknownOperand(name: string, because: Unknown, from: readonly Place[] = []): Operand {
  return { name, quantity: because, unit: "1", from };
}

/** A value that was made here rather than typed: a fallback margin, a count. */
export function fixedOperand(name: string, quantity: Quantity, unit: string, from: readonly Place[] = []): Operand {
  return { name, quantity, unit, from };
}

/** The same operand under another name, or with a sign of power. */
export function called(operand: Operand, name: string, raised?: Operand["raised"]): Operand {
  return {
    name,
    quantity: operand.quantity,
    unit: operand.unit,
    get from() {
      return operand.from;
    },
    ...(raised === undefined ? {} : { raised }),
  };
}

export function isKnown(operand: Operand): operand is KnownOperand {
  return operand.quantity.kind === "known";
}

function woven({ texts, operands }: Written, word: (operand: Operand) => string): string {
  return texts.map((text, index) => text + (operands[index] === undefined ? "" : word(operands[index]))).join("");
}

/** A negative number, and one that is raised to a power, stands in brackets. */
function inFormula(printed: string, raised: Operand["raised"]): string {
  return raised !== undefined || printed.startsWith("-") ? `(${printed})${raised ?? ""}` : printed;
}

function distinct(places: readonly Place[]): readonly Place[] {
  const seen = new Set<string>();
  return places.filter(({ file, span }) => {
    const key = `${span.start}:${span.end}:${file}`;
    return seen.has(key) ? false : seen.add(key);
  });
}
