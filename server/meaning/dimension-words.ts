/**
 * Dimensions in plain English, as problems name them: "a length", "an angle". The names themselves come from the table
 * of units.
 */
import type { Dimension } from "../quantity/quantity.ts";
import { dimensionName, dimensionOf, sameDimension } from "../quantity/units.ts";

/** With its article: "a length", "a number of turns", "a number without a unit". */
export function inWords(dimension: Dimension): string {
  if (sameDimension(dimension, dimensionOf("share"))) {
    return "a number without a unit";
  }
  if (sameDimension(dimension, dimensionOf("rotation"))) {
    return "a number of turns";
  }
  const name = dimensionName(dimension);
  return `${/^[aeiou]/.test(name) ? "an" : "a"} ${name}`;
}
