/**
 * The units of the language and the few needed for display, each with its exact ratio to the coherent base units (mm, kg, s, deg,
 * turn, HU), and the dimensions they measure. Spellings (singular, °, percent) belong to the grammar; values and printing are
 * beside this file.
 */
import type { Dimension } from "./quantity.ts";

export type DimensionName =
  | "length"
  | "angle"
  | "mass"
  | "time"
  | "pressure"
  | "force"
  | "moment"
  | "volume"
  | "share"
  | "rotation"
  | "density"
  | "area"
  | "length per turn"
  | "bending stiffness";

export interface Unit {
  /** Canonical word: `mm`, `weeks`, `N·m²`; `1` for a plain ratio. */
  readonly word: string;
  /** Word after exactly 1: `week`. */
  readonly one: string;
  readonly dimension: DimensionName;
  /** Base units in one of this unit. */
  readonly factor: number;
  /** The same as numerator and denominator; undefined where it is not rational (rad). */
  readonly exact: readonly [bigint, bigint] | undefined;
  /** Two doubles whose quotient is the factor: multiplying and then dividing keeps 37 % at 0.37, which `× 0.01` would not. */
  readonly ratio: readonly [number, number];
  /** Decimals a computed exact value is shown with at most: 0.01 mm, 0.1 deg and their like. */
  readonly decimals: number;
  /** One line, ends with a full stop. */
  readonly doc: string;
}

/** The unit of a canonical word, or undefined. */
export function unit(word: string): Unit | undefined {
  return byWord.get(word);
}

/** All units, those of one dimension together, the usual one of each first. */
export function units(): readonly Unit[] {
  return table;
}

/** Exponents of a named dimension. */
export function dimensionOf(name: DimensionName): Dimension {
  return dimensions[name];
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  if (a === b) return true;
  return (
    a.length === b.length &&
    a.mass === b.mass &&
    a.time === b.time &&
    a.angle === b.angle &&
    a.turn === b.turn &&
    a.attenuation === b.attenuation
  );
}

/** In plain words: "length", "length per turn"; built from the base dimensions where it has no name: "length squared per time". */
export function dimensionName(dimension: Dimension): string {
  for (const [name, known] of namedDimensions) if (sameDimension(known, dimension)) return name;
  const over: string[] = [];
  const under: string[] = [];
  for (const [key, word] of baseWords) {
    const exponent = dimension[key];
    if (exponent > 0) over.push(powerWord(word, exponent));
    if (exponent < 0) under.push(`per ${powerWord(word, -exponent)}`);
  }
  return [over.join(" times "), ...under].filter((part) => part !== "").join(" ");
}

/** The unit a dimension is usually shown in (mm, deg, kg, …), or undefined where no unit of the table measures it. */
export function usualUnit(dimension: Dimension): Unit | undefined {
  return table.find((candidate) => sameDimension(dimensions[candidate.dimension], dimension));
}

/** A number of this unit in base units. */
export function toBase(value: number, of: Unit): number {
  return (value * of.ratio[0]) / of.ratio[1];
}

/** A number of base units in this unit. */
export function fromBase(value: number, to: Unit): number {
  return (value * to.ratio[1]) / to.ratio[0];
}

function powerWord(word: string, exponent: number): string {
  if (exponent === 1) return word;
  if (exponent === 2) return `${word} squared`;
  if (exponent === 3) return `${word} cubed`;
  return `${word} to the power ${exponent}`;
}

const none: Dimension = { length: 0, mass: 0, time: 0, angle: 0, turn: 0, attenuation: 0 };

const dimensions: Readonly<Record<DimensionName, Dimension>> = {
  length: { ...none, length: 1 },
  angle: { ...none, angle: 1 },
  mass: { ...none, mass: 1 },
  time: { ...none, time: 1 },
  pressure: { ...none, length: -1, mass: 1, time: -2 },
  force: { ...none, length: 1, mass: 1, time: -2 },
  moment: { ...none, length: 2, mass: 1, time: -2 },
  volume: { ...none, length: 3 },
  share: none,
  rotation: { ...none, turn: 1 },
  density: { ...none, attenuation: 1 },
  area: { ...none, length: 2 },
  "length per turn": { ...none, length: 1, turn: -1 },
  "bending stiffness": { ...none, length: 3, mass: 1, time: -2 },
};

const namedDimensions = Object.entries(dimensions);

const baseWords: readonly (readonly [keyof Dimension, string])[] = [
  ["length", "length"],
  ["mass", "mass"],
  ["time", "time"],
  ["angle", "angle"],
  ["turn", "rotation"],
  ["attenuation", "density"],
];

function ratio(
  word: string,
  dimension: DimensionName,
  over: bigint,
  under: bigint,
  decimals: number,
  doc: string,
  one = word,
): Unit {
  const pair: readonly [number, number] = [Number(over), Number(under)];
  return { word, one, dimension, factor: pair[0] / pair[1], exact: [over, under], ratio: pair, decimals, doc };
}

// The year is the Julian year of 365.25 days and the month a twelfth of it: the only ones with a fixed length.
const table: readonly Unit[] = [
  ratio("mm", "length", 1n, 1n, 2, "Millimetre, the unit every length is reckoned in."),
  ratio("cm", "length", 10n, 1n, 3, "Centimetre, 10 mm."),
  ratio("m", "length", 1000n, 1n, 5, "Metre, 1000 mm."),
  ratio("deg", "angle", 1n, 1n, 1, "Degree of angle."),
  {
    word: "rad",
    one: "rad",
    dimension: "angle",
    factor: 180 / Math.PI,
    exact: undefined,
    ratio: [180, Math.PI],
    decimals: 3,
    doc: "Radian, 180/π deg.",
  },
  ratio("kg", "mass", 1n, 1n, 2, "Kilogram."),
  ratio("g", "mass", 1n, 1000n, 2, "Gram, a thousandth of a kilogram."),
  ratio("weeks", "time", 604_800n, 1n, 2, "Week of 7 days.", "week"),
  ratio("minutes", "time", 60n, 1n, 2, "Minute.", "minute"),
  ratio("hours", "time", 3600n, 1n, 2, "Hour.", "hour"),
  ratio("days", "time", 86_400n, 1n, 2, "Day of 24 hours.", "day"),
  ratio("months", "time", 2_629_800n, 1n, 2, "Month, a twelfth of a Julian year (30.4375 days).", "month"),
  ratio("years", "time", 31_557_600n, 1n, 2, "Julian year of 365.25 days.", "year"),
  ratio("mmHg", "pressure", 133_322_387_415n, 1_000_000_000_000n, 2, "Millimetre of mercury, 133.322387415 Pa."),
  ratio("kPa", "pressure", 1n, 1n, 2, "Kilopascal."),
  ratio("MPa", "pressure", 1000n, 1n, 2, "Megapascal, 1 N/mm²."),
  ratio("GPa", "pressure", 1_000_000n, 1n, 2, "Gigapascal, 1000 N/mm²."),
  ratio("N", "force", 1000n, 1n, 2, "Newton."),
  ratio("kN", "force", 1_000_000n, 1n, 3, "Kilonewton, 1000 N."),
  ratio("Nm", "moment", 1_000_000n, 1n, 2, "Newton metre."),
  ratio("ml", "volume", 1000n, 1n, 2, "Millilitre, 1000 mm³."),
  ratio("mm³", "volume", 1n, 1n, 2, "Cubic millimetre."),
  ratio("1", "share", 1n, 1n, 3, "A plain ratio."),
  ratio("%", "share", 1n, 100n, 2, "Per cent, one hundredth."),
  ratio("turns", "rotation", 1n, 1n, 2, "Whole turn of a screw.", "turn"),
  ratio("HU", "density", 1n, 1n, 2, "Hounsfield unit of computed tomography."),
  ratio("mm²", "area", 1n, 1n, 2, "Square millimetre."),
  ratio("mm/turn", "length per turn", 1n, 1n, 2, "Pitch of a screw: advance in one turn."),
  ratio("N·m²", "bending stiffness", 1_000_000_000n, 1n, 2, "Newton square metre, a bar's stiffness in bending."),
];

const byWord: ReadonlyMap<string, Unit> = new Map(table.map((entry) => [entry.word, entry]));
