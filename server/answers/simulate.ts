/**
 * The second path for uncertainties: a seeded Monte Carlo after JCGM 101:2008, which reads the plan again with every reading drawn
 * from a normal distribution and compares what comes out with the first-order figures.
 */

import type { Library } from "../meaning/library.ts";
import { understand } from "../meaning/understand.ts";
import { halfWidthIn, valueIn } from "../quantity/arithmetic.ts";
import { normalDeviates } from "../quantity/chance.ts";
import { decimalsFor } from "../quantity/decimal.ts";
import { reckon } from "../reckoning/reckon.ts";
import type { Analysis } from "./analyse.ts";

export interface Simulated {
  readonly id: string;
  readonly unit: string;
  /** First-order value and half-width (k = 2). */
  readonly value: number;
  readonly halfWidth: number;
  readonly mean: number;
  /** Standard deviation of the trials. */
  readonly deviation: number;
  /** Ends of the interval that holds 95.45 % of the trials, as much below as above (the coverage of k = 2). */
  readonly low: number;
  readonly high: number;
  /** Trials in which the value could be reckoned. */
  readonly trials: number;
  readonly agrees: boolean;
}

/** Every uncertain reckoning of a plan over `trials` draws; the same seed gives the same answer. Empty when nothing is uncertain. */
export function simulate(analysis: Analysis, library: Library, trials: number, seed: number): readonly Simulated[] {
  const uncertain = (analysis.reckonings?.list ?? []).flatMap(({ id, unit, answer }) =>
    answer.kind === "known" && answer.influences.length > 0 ? [{ id, unit, answer }] : [],
  );
  const drawn = new Map(uncertain.map(({ id }) => [id, [] as number[]]));
  const normal = normalDeviates(seed);
  for (let trial = 0; uncertain.length > 0 && trial < trials; trial += 1) {
    const reckonings = once(analysis, library, normal);
    for (const { id, unit } of uncertain) {
      const answer = reckonings?.byId.get(id)?.answer;
      if (answer?.kind === "known") drawn.get(id)?.push(valueIn(answer, unit));
    }
  }
  return uncertain.map(({ id, unit, answer }) => {
    return compared(id, unit, valueIn(answer, unit), halfWidthIn(answer, unit), drawn.get(id) ?? [], trials);
  });
}

function once({ parsed, file }: Analysis, library: Library, normal: () => number) {
  const deviates = new Map<string, number>();
  const meaning = understand(parsed, file, library, ({ id }, value, standardUncertainty) => {
    const deviate = deviates.get(id) ?? normal();
    deviates.set(id, deviate);
    return value + deviate * standardUncertainty;
  });
  return meaning.document?.kind === "plan" ? reckon(meaning.document) : undefined;
}

function compared(
  id: string,
  unit: string,
  value: number,
  halfWidth: number,
  drawn: readonly number[],
  asked: number,
): Simulated {
  const sorted = [...drawn].sort((a, b) => a - b);
  const trials = sorted.length;
  const mean = sorted.reduce((sum, each) => sum + each, 0) / Math.max(1, trials);
  const variance = sorted.reduce((sum, each) => sum + (each - mean) ** 2, 0) / Math.max(1, trials - 1);
  const tail = (1 - coverageOfTwo) / 2;
  const low = quantile(sorted, tail);
  const high = quantile(sorted, 1 - tail);
  const deviation = Math.sqrt(variance);
  // JCGM 101:2008, 8: both ends agree within half a unit in the second digit of the uncertainty, here beside the error of the
  // trials themselves, taken as four standard errors of a quantile out in the tail.
  const allowed =
    10 ** -decimalsFor(halfWidth / 2, 2) / 2 +
    (4 * deviation * Math.sqrt((tail * (1 - tail)) / Math.max(1, trials))) / densityAtTwo;
  const agrees =
    trials === asked && Math.abs(value - halfWidth - low) <= allowed && Math.abs(value + halfWidth - high) <= allowed;
  return { id, unit, value, halfWidth, mean, deviation, low, high, trials, agrees };
}

/** Of a normal distribution within two standard deviations, and its density there. */
const coverageOfTwo = 0.9544997361036416;
const densityAtTwo = 0.05399096651318806;

function quantile(sorted: readonly number[], share: number): number {
  const at = share * (sorted.length - 1);
  const below = sorted[Math.floor(at)] ?? 0;
  const above = sorted[Math.ceil(at)] ?? below;
  return below + (above - below) * (at - Math.floor(at));
}
