/**
 * How anything is timed: rounds that alternate between all that is compared, and medians over them. Other programs on the machine
 * slow every contender alike, so only the ratios within one run mean anything.
 */

export interface Contender {
  readonly name: string;
  readonly run: () => unknown;
}

/** Milliseconds each contender runs before it is timed. */
const warming = 2000;

/** Milliseconds for one run of each, by name: the median of `rounds` alternating rounds of about `milliseconds` each. */
export async function timeTogether(
  contenders: readonly Contender[],
  rounds: number,
  milliseconds = 60,
): Promise<ReadonlyMap<string, number>> {
  const repeats = new Map<string, number>();
  for (const { name, run } of contenders) {
    // The engine compiles what is hot only after many runs, large programs later than small ones; a cold start has a row of its own.
    const warm = await timeUntil(run, warming);
    repeats.set(name, Math.max(1, Math.round(milliseconds / warm)));
  }
  const times = new Map(contenders.map(({ name }): [string, number[]] => [name, []]));
  for (let round = 0; round < rounds; round++) {
    for (const { name, run } of contenders) times.get(name)?.push(await timeOnce(run, repeats.get(name) ?? 1));
  }
  return new Map([...times].map(([name, all]) => [name, quantile(all, 0.5)]));
}

/** The value below which `share` of all values lie, by the nearest rank. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? sorted[0] ?? Number.NaN;
}

async function timeOnce(run: () => unknown, times: number): Promise<number> {
  const start = performance.now();
  for (let time = 0; time < times; time++) {
    const made = run();
    // Awaited only where it is a promise: a turn of the event loop is not the work.
    if (made instanceof Promise) await made;
  }
  return (performance.now() - start) / times;
}

/** Milliseconds of the quickest run within a time, so that what has not warmed up does not count. */
async function timeUntil(run: () => unknown, milliseconds: number): Promise<number> {
  const end = performance.now() + milliseconds;
  let best = await timeOnce(run, 1);
  while (performance.now() < end) best = Math.min(best, await timeOnce(run, 1));
  return Math.max(best, 0.0005);
}
