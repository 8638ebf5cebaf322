/**
 * Repeatable chance for simulations: the same seed gives the same numbers on every machine and in every year. Not for secrets.
 */

/** Draws from a normal distribution: mean 0, standard deviation 1. */
export type Normal = () => number;

/**
 * A stream of normal deviates from an integer seed: uniform numbers by mulberry32 (32 bits of state, period 2³²), paired by the
 * polar method of Marsaglia and Bray. Only square root and logarithm are used, so a trial may differ in the last place between
 * engines, far below what a simulation can tell.
 */
export function normalDeviates(seed: number): Normal {
  const uniform = uniformNumbers(seed);
  let kept: number | undefined;
  return () => {
    if (kept !== undefined) {
      const value = kept;
      kept = undefined;
      return value;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      kept = y * factor;
      return x * factor;
    }
  };
}

function uniformNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
