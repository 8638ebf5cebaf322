/**
 * The record every face shows: one number with its unit, uncertainty, formula, origin and basis. The subjects beside this file
 * make them; this file holds the shape and the ordered collection, and computes nothing.
 */
import type { Place } from "../meaning/plan.ts";
import type { Quantity } from "../quantity/quantity.ts";

/** How far a formula or a figure can be trusted, with the words that name its source. */
export interface Basis {
  readonly mark: "printed" | "computed" | "common practice" | "from memory" | "catalogue" | "department's choice";
  /** The source as a reader would cite it; for common practice "common practice, no single source". */
  readonly text: string;
}

/** A number, or a plain word where the answer is one (`segment` is "shaft"). */
export type Answer = Quantity | { readonly kind: "word"; readonly word: string };

export interface Reckoning {
  /** `hole.P1.level`: dotted, stable, the key of every face. */
  readonly id: string;
  /** Plain words in the trade's terms, no full stop: "level of hole P1". */
  readonly label: string;
  readonly answer: Answer;
  /** Display unit, one of `server/quantity/units.ts`. */
  readonly unit: string;
  /** In symbols: `sunk + length - tip`. */
  readonly formula: string;
  /** The same with its numbers filled in: `8 mm + 345 mm - 12 mm`. */
  readonly filled: string;
  /** The statements or expressions it came from. */
  readonly from: readonly Place[];
  readonly basis: Basis;
  /** A remark for the reader: held constant outside the given levels, teaching estimate, … */
  readonly remark?: string;
}

/** In the order of the list of reckonings; ids are unique. */
export interface Reckonings {
  readonly list: readonly Reckoning[];
  readonly byId: ReadonlyMap<string, Reckoning>;
}
