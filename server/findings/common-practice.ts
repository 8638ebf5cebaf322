/**
 * The basis of every rule that rests on no source of its own, so that it is worded the same everywhere. Figures with a source are in the
 * rules themselves and in `limit-table.ts`.
 */
import type { Basis } from "../reckoning/reckoning.ts";

export const commonPractice: Basis = { mark: "common practice", text: "common practice, no single source" };

/** What a department has to settle for itself. */
export const noFigure: Basis = {
  mark: "department's choice",
  text: "department's choice; no published figure was found",
};

/** What follows from the sizes and levels alone. */
export const geometry: Basis = { mark: "computed", text: "geometry along the canal's axis" };

/** Habit, with a source for one part of it. */
export function practiceAnd(text: string): Basis {
  return { mark: "common practice", text: `common practice, no single source; ${text}` };
}
