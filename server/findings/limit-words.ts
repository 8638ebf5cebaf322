/**
 * How a value is said to lie beyond its limit: as a fact when it is sure, and with what may be when the uncertainty leaves it open, so
 * that the number shown never contradicts the sentence. The clauses come from the rules.
 */
import { compare } from "../quantity/arithmetic.ts";
import type { Told } from "./judging.ts";

/** "CLAUSE; the limit is 2 mm." or "CLAUSE, which may pass the limit of 2 mm."; `also` goes behind the limit. */
export function passing(told: Told, clause: string, also = ""): string {
  const limit = `${told.limit}${also}`;
  return told.sure ? `${clause}; the limit is ${limit}.` : `${clause}, which may pass the limit of ${limit}.`;
}

/** "CLAUSE; at least 2 mm is wanted." or "CLAUSE, which may be less than the 2 mm wanted." */
export function falling(told: Told, clause: string): string {
  return told.sure
    ? `${clause}; at least ${told.limit} is wanted.`
    : `${clause}, which may be less than the ${told.limit} wanted.`;
}

/** True when the value as it stands is beyond the limit, however unsure. */
export function isNominal(told: Told): boolean {
  const { value, limit, side } = told.beyond;
  return compare(value, limit) === (side === "most" ? 1 : -1);
}
