/**
 * The unit words as they may be typed, each with its canonical word, its dimension and one line of explanation. How large a unit
 * is stands in the quantities; nothing here converts anything.
 */
import type { DimensionName } from "./rule.ts";

export interface UnitWord {
  /** The canonical word: `°` is read as `deg`, `week` as `weeks`. */
  readonly unit: string;
  readonly dimension: DimensionName;
  readonly doc: string;
}

const rows: readonly (readonly [words: string, dimension: DimensionName, doc: string])[] = [
  ["mm", "length", "Millimetre."],
  ["cm", "length", "Centimetre, 10 mm."],
  ["m", "length", "Metre, 1000 mm."],
  ["deg °", "angle", "Degree of arc."],
  ["rad", "angle", "Radian, 180/π degrees."],
  ["g", "mass", "Gram."],
  ["kg", "mass", "Kilogram, 1000 g."],
  ["minutes minute", "time", "Minute, 60 seconds."],
  ["hours hour", "time", "Hour, 60 minutes."],
  ["days day", "time", "Day, 24 hours."],
  ["weeks week", "time", "Week, 7 days."],
  ["months month", "time", "Month, a twelfth of a year."],
  ["years year", "time", "Year of 365.25 days."],
  ["mmHg", "pressure", "Millimetre of mercury, 133.322387415 Pa by convention."],
  ["kPa", "pressure", "Kilopascal."],
  ["MPa", "pressure", "Megapascal, 1000 kPa."],
  ["GPa", "pressure", "Gigapascal, 1000 MPa."],
  ["N", "force", "Newton."],
  ["kN", "force", "Kilonewton, 1000 N."],
  ["Nm", "moment", "Newton metre."],
  ["ml", "volume", "Millilitre, 1000 mm³."],
  ["% percent", "share", "Hundredth part."],
  ["turns turn", "rotation", "Full turn of a screw."],
  ["HU", "density", "Hounsfield unit, radiodensity on CT."],
];

/** By the word as typed; the first word of a row is the canonical one. */
export const unitWords: ReadonlyMap<string, UnitWord> = new Map(
  rows.flatMap(([words, dimension, doc]) => {
    const [unit = "", ...others] = words.split(" ");
    return [unit, ...others].map((word): [string, UnitWord] => [word, { unit, dimension, doc }]);
  }),
);

/** Canonical words that are plurals, each with its singular. */
const singulars: ReadonlyMap<string, string> = new Map(
  [...unitWords].flatMap(([word, { unit }]): [string, string][] => (unit === `${word}s` ? [[unit, word]] : [])),
);

/** How the canonical layout writes a unit: the canonical word, a plural in the singular behind exactly one. */
export function unitAfter(unit: string, value: number): string {
  return value === 1 ? (singulars.get(unit) ?? unit) : unit;
}
