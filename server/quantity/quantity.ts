/**
 * The shape of every value the tool handles: a number in coherent base units (mm, kg, s, deg, turn, HU), its dimension, and a
 * first-order sensitivity to each independent reading (JCGM 100:2008, 5.1.2 and 5.2), so that a reading used twice is
 * correlated with itself. What cannot be known is a value too. Arithmetic, units and printing are in the files beside this one.
 */

/** Exponents of the base dimensions. A share is all zeros. */
export interface Dimension {
  readonly length: number;
  readonly mass: number;
  readonly time: number;
  readonly angle: number;
  readonly turn: number;
  readonly attenuation: number;
}

/** One independent reading, typed somewhere with a ±. Two quantities that share its `id` are correlated through it. */
export interface Reading {
  /** Unique in one analysis: file and offset of the number. */
  readonly id: string;
  /** How a budget names it: "scar", "marker seen on ap". */
  readonly label: string;
  /** Standard uncertainty (half of the typed ±) in base units of the reading's own dimension; above 0. */
  readonly standardUncertainty: number;
  /** The unit it was typed in, so that a budget can say "now ± 2.0 mm". */
  readonly unit: string;
}

/** `sensitivity` is the partial derivative of the value to the reading, in base units over base units. */
export interface Influence {
  readonly reading: Reading;
  readonly sensitivity: number;
}

/** Two doubles with the result of a computation between them, as it would be without rounding. Infinite where nothing is known. */
export interface Enclosure {
  readonly low: number;
  readonly high: number;
}

export interface Known {
  readonly kind: "known";
  /** Finite, in base units; never -0. */
  readonly value: number;
  /** The same computation by a second way; absent where it says the value itself: typed, made by hand, or never rounded. */
  readonly enclosure?: Enclosure;
  readonly dimension: Dimension;
  /** Sorted by reading id, none with sensitivity 0; empty when the value is exact. */
  readonly influences: readonly Influence[];
  /** Digits as typed, for an exact value straight from the text; gone after any arithmetic. */
  readonly typed?: { readonly text: string; readonly unit: string };
}

export interface Unknown {
  readonly kind: "unknown";
  /** Why, in plain words: "no landmark `scar` is given". */
  readonly because: string;
}

export type Quantity = Known | Unknown;
