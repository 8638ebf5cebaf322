/**
 * The seeded normal numbers: the same for a seed, and shaped like the normal distribution. Every tolerance is four and a half or more
 * standard errors of the statistic itself, so that a true normal sample of any seed would fail less than once in 100,000.
 */
import { describe, expect, test } from "vitest";
import { normalDeviates } from "../../server/quantity/chance.ts";

function drawn(seed: number, count: number): readonly number[] {
  const draw = normalDeviates(seed);
  return Array.from({ length: count }, draw);
}

function meanOf(list: readonly number[]): number {
  return list.reduce((sum, x) => sum + x, 0) / list.length;
}

/**
 * The same stream in whole numbers without bounds: mulberry32 (Tommy Ettinger, public domain, from memory) reduced by 2³² after each
 * step, and the polar method in its textbook form (Knuth, The Art of Computer Programming 2, 3.4.1, algorithm P, from memory).
 */
function byHand(seed: number, count: number): readonly number[] {
  const size = 2n ** 32n;
  const word = (x: bigint): bigint => ((x % size) + size) % size;
  let state = word(BigInt(seed));
  const uniform = (): number => {
    state = word(state + 0x6d2b79f5n);
    const first = word((state ^ (state >> 15n)) * (state | 1n));
    const second = first ^ word(first + word((first ^ (first >> 7n)) * (first | 61n)));
    return Number(second ^ (second >> 14n)) / 4_294_967_296;
  };
  const list: number[] = [];
  while (list.length < count) {
    const [v1, v2] = [2 * uniform() - 1, 2 * uniform() - 1];
    const s = v1 ** 2 + v2 ** 2;
    if (s === 0 || s >= 1) continue;
    const length = Math.sqrt(-2 * Math.log(s)) / Math.sqrt(s);
    list.push(v1 * length, v2 * length);
  }
  return list.slice(0, count);
}

describe("repeatable", () => {
  test("a seed gives its numbers again, another seed others", () => {
    expect(drawn(7, 1000)).toEqual(drawn(7, 1000));
    expect(drawn(7, 10)).not.toEqual(drawn(8, 10));
    expect(new Set(drawn(7, 1000)).size).toBe(1000);
  });

  test("two streams of one seed do not disturb each other", () => {
    const [one, other] = [normalDeviates(3), normalDeviates(3)];
    const mixed = Array.from({ length: 100 }, () => [one(), other()] as const);
    for (const [a, b] of mixed) expect(a).toBe(b);
    expect(mixed.map(([a]) => a)).toEqual(drawn(3, 100));
  });

  test("the numbers are those of mulberry32 and the polar method", () => {
    for (const seed of [0, 1, 7, 123_456_789, 2 ** 31, 2 ** 32 - 1]) {
      const expected = byHand(seed, 500);
      for (const [index, x] of drawn(seed, 500).entries()) {
        expect(Math.abs(x - (expected[index] ?? 0)), `seed ${seed}, number ${index}`).toBeLessThan(1e-13);
      }
    }
  });

  test("a seed counts by its lowest 32 bits", () => {
    expect(drawn(-1, 20)).toEqual(drawn(2 ** 32 - 1, 20));
    expect(drawn(2 ** 32 + 5, 20)).toEqual(drawn(5, 20));
  });
});

describe("as the normal distribution", () => {
  const count = 200_000;
  const seeds = [1, 2, 3];
  const samples = seeds.map((seed) => [seed, drawn(seed, count)] as const);

  test.each(samples)("seed %d: mean 0, variance 1, no skew, kurtosis 3", (_seed, sample) => {
    const mean = meanOf(sample);
    const moment = (power: number): number => meanOf(sample.map((x) => (x - mean) ** power));
    // Standard errors for n normal numbers: 1/√n, √(2/n), √(6/n) of the third moment about the sample's mean, √(96/n) of the fourth.
    const within = (errors: number): number => 4.5 * Math.sqrt(errors / count);
    expect(Math.abs(mean)).toBeLessThan(within(1));
    expect(Math.abs(moment(2) - 1)).toBeLessThan(within(2));
    expect(Math.abs(moment(3))).toBeLessThan(within(6));
    expect(Math.abs(moment(4) - 3)).toBeLessThan(within(96));
  });

  test.each(samples)("seed %d: as many beyond each quantile as there should be, on both sides", (_seed, sample) => {
    // Upper quantiles of the standard normal distribution (Abramowitz and Stegun, Table 26.5, from memory).
    const quantiles: readonly (readonly [share: number, x: number])[] = [
      [0.5, 0],
      [0.25, 0.67449],
      [0.1, 1.28155],
      [0.05, 1.64485],
      [0.025, 1.95996],
      [0.01, 2.32635],
      [0.001, 3.09023],
      [0.0001, 3.71902],
    ];
    for (const [share, x] of quantiles) {
      const error = 4.5 * Math.sqrt((share * (1 - share)) / count);
      const [above, below] = [(y: number) => y > x, (y: number) => y < -x].map(
        (beyond) => sample.filter(beyond).length / count,
      );
      expect(Math.abs((above ?? 0) - share), `above ${x}`).toBeLessThan(error);
      expect(Math.abs((below ?? 0) - share), `below -${x}`).toBeLessThan(error);
    }
  });

  test("the greatest distance from the distribution function is small (Kolmogorov and Smirnov)", () => {
    const sorted = [...drawn(11, 20_000)].sort((a, b) => a - b);
    // By Simpson's rule from 0, so that the figure is not the product's own.
    const cdf = (x: number): number => {
      const steps = 200;
      const weight = (i: number): number => (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2);
      const heights = Array.from({ length: steps + 1 }, (_, i) => weight(i) * Math.exp(-(((x * i) / steps) ** 2) / 2));
      return 0.5 + ((x / steps / 3) * heights.reduce((a, b) => a + b, 0)) / Math.sqrt(2 * Math.PI);
    };
    const distances = sorted.map((x, i) => Math.max(cdf(x) - i / 20_000, (i + 1) / 20_000 - cdf(x)));
    // P(√n D > 2.5) = 2 exp(-2 · 2.5²) = 0.7 in 100,000.
    expect(Math.sqrt(20_000) * Math.max(...distances)).toBeLessThan(2.5);
  });

  test.each([1, 2, 3, 10])("numbers %d apart know nothing of each other, nor do their squares", (lag) => {
    const [, sample = []] = samples[0] ?? [];
    const products = (of: (x: number) => number): number =>
      meanOf(sample.slice(lag).map((x, index) => of(x) * of(sample[index] ?? 0)));
    // A product of two independent numbers with mean 0 and variance v has the variance v²; x² - 1 has v = 2.
    expect(Math.abs(products((x) => x))).toBeLessThan(4.5 / Math.sqrt(count));
    expect(Math.abs(products((x) => x * x - 1))).toBeLessThan((4.5 * 2) / Math.sqrt(count));
  });

  test("every number is finite", () => {
    for (const [, sample] of samples) expect(sample.every(Number.isFinite)).toBe(true);
  });
});
