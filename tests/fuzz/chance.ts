/** Repeatable chance for generated tests: the same seed gives the same choices on every machine. */
export interface Chance {
  /** An integer from 0 to `below` - 1. */
  whole(below: number): number;
  pick<T>(from: readonly T[]): T;
  /** True with this probability. */
  yes(probability: number): boolean;
}

/** A 32-bit xorshift-multiply generator (mulberry32); any integer seed. */
export function chance(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const whole = (below: number): number => Math.floor(next() * below);
  return {
    whole,
    pick: (from) => {
      const picked = from[whole(from.length)];
      if (picked === undefined) throw new Error("nothing to pick from");
      return picked;
    },
    yes: (probability) => next() < probability,
  };
}
