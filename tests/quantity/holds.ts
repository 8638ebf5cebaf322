/** Whether an enclosure holds an exact number: what every test of enclosures asks. */
import type { Enclosure } from "../../server/quantity/quantity.ts";
import { fromDouble, order, type Rational } from "./rational.ts";

/** The enclosure that says nothing. */
export const everything: Enclosure = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

export function holds({ low, high }: Enclosure, exactly: Rational): boolean {
  const isAbove = low === everything.low || order(fromDouble(low), exactly) <= 0;
  return isAbove && (high === everything.high || order(exactly, fromDouble(high)) <= 0);
}
