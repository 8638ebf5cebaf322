/**
 * Uncertainties against the worked examples of JCGM 100:2008 (GUM), JCGM 101:2008 and the like. Each figure has its
 * source beside it with its mark: printed (stands so in the source), computed (from the printed inputs and the printed
 * formula), from memory.
 */
import { describe, expect, test } from "vitest";
import {
  add,
  correlation,
  divide,
  exact,
  halfWidthIn,
  multiply,
  plain,
  scale,
  shares,
  standardUncertainty,
  subtract,
} from "../../server/quantity/arithmetic.ts";
import { cosine, mean, sine } from "../../server/quantity/elementary.ts";
import { print, printNumber } from "../../server/quantity/print.ts";
import { normalCdf } from "../../server/quantity/probability.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { numberIn, standard, sure } from "../quantity/sure.ts";

const u = (q: Quantity) => standardUncertainty(sure(q));
const product = (...factors: readonly Quantity[]) => factors.reduce(multiply);

/**
 * Standard uncertainty of a rectangular distribution of this half-width. JCGM 100:2008, equation 7 (from memory): a /
 * √3.
 */
const rectangular = (halfWidth: number) => halfWidth / Math.sqrt(3);

// line: GUM-H1 and T5: JCGM 100:2008, H.1.3 and Table H.1: inputs, 50.000838 mm and u 32 nm (printed); 31.66 nm before
// rounding (computed). Its effective degrees of freedom have no part in the tool, whose k is 2 throughout.
describe("GUM-H1 and T5: end-gauge calibration", () => {
  // Inputs: l_s 50.000623 mm, u 25 nm; d 215 nm, parts 5.8, 3.9, 6.7 nm;
  // δα rectangular ± 1e-6; δθ rectangular ± 0.05; θ -0.1, u 0.41; α_s 11.5e-6, u 1.2e-6.
  const nanometre = exact(1e-6, "mm");
  const standardLength = standard("l_s", 50.000_623, 25e-6, "mm");
  const difference = [
    standard("comparator, random", 0, 5.8),
    standard("comparator, random of the calibration", 0, 3.9),
    standard("comparator, systematic", 0, 6.7),
  ].reduce(add, plain(215));
  const expansionDifference = standard("δα", 0, rectangular(1e-6));
  const temperature = standard("θ", -0.1, 0.41);
  const expansion = standard("α_s", 11.5e-6, 1.2e-6);
  const temperatureDifference = standard("δθ", 0, rectangular(0.05));
  const correction = add(product(expansionDifference, temperature), product(expansion, temperatureDifference));
  const length = subtract(add(standardLength, product(difference, nanometre)), product(standardLength, correction));

  test("parts: 9.7 nm for d, 2.9 nm for δα, 16.6 nm for δθ", () => {
    // H.1.3.2: 9.7 nm (printed).
    expect(Math.abs(u(difference) - 9.7)).toBeLessThan(0.05);
    const parts = new Map(shares(sure(length)).map(({ reading, share }) => [reading.id, Math.sqrt(share)]));
    const nanometres = (id: string) => ((parts.get(id) ?? 0) * u(length)) / 1e-6;
    // Table H.1: 2.9 nm, 16.6 nm and 25 nm (printed).
    expect(Math.abs(nanometres("δα") - 2.9)).toBeLessThan(0.05);
    expect(Math.abs(nanometres("δθ") - 16.6)).toBeLessThan(0.1);
    expect(Math.abs(nanometres("l_s") - 25)).toBeLessThan(0.01);
    // H.1.3: α_s and θ contribute nothing in first order, for δθ and δα are 0 (computed).
    expect([parts.has("α_s"), parts.has("θ")]).toEqual([false, false]);
  });

  test("l = 50.000838 mm, u raw 31.66 nm, printed 32 nm", () => {
    // Tolerance 0.1 nm on the raw values.
    expect(Math.abs(numberIn(length, "mm") - 50.000_838)).toBeLessThan(0.000_000_1);
    expect(Math.abs(u(length) / 1e-6 - 31.66)).toBeLessThan(0.1);
    expect(printNumber(u(length) / 1e-6, 0)).toBe("32");
    expect(printNumber(u(length) / 1e-6, 2)).toBe("31.66");
  });

  test("as the tool writes it, with k = 2", () => {
    // 2 × 31.66 nm = 63 nm (computed); two digits and the same place by 7.2.6 (rule).
    expect(print(length, "mm")).toBe("50.000838 mm ± 0.000063 mm");
  });
});

// line: GUM-H2: JCGM 100:2008, Table H.2: means, uncertainties, correlations, R, X, Z and theirs (printed); the
// readings behind them (from memory)
describe("GUM-H2: resistance and reactance from correlated readings", () => {
  interface Inputs {
    /** V in volts, I in amperes, φ in radians. */
    readonly values: readonly [number, number, number];
    readonly uncertainties: readonly [number, number, number];
    /** r(V, I), r(V, φ), r(I, φ). */
    readonly correlations: readonly [number, number, number];
  }

  // JCGM 100:2008, Table H.2 (printed): means, their standard uncertainties, their correlation coefficients.
  const printed: Inputs = {
    values: [4.999, 0.019_661, 1.044_46],
    uncertainties: [0.0032, 0.000_009_5, 0.000_75],
    correlations: [-0.36, 0.86, -0.65],
  };

  // The five sets of readings of the same table (from memory; below they give back all nine printed figures).
  const voltages = [5.007, 4.994, 5.005, 4.99, 4.999];
  const currents = [19.663, 19.639, 19.64, 19.685, 19.678].map((milliampere) => milliampere / 1000);
  const phases = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
  const observed: Inputs = {
    values: [average(voltages), average(currents), average(phases)],
    uncertainties: [spread(voltages), spread(currents), spread(phases)],
    correlations: [together(voltages, currents), together(voltages, phases), together(currents, phases)],
  };

  test("the five readings give the printed means, uncertainties and correlations", () => {
    expect(observed.values.map((value, i) => fixedTo(value, [4, 6, 5][i] ?? 0))).toEqual(printed.values);
    expect(observed.uncertainties.map((value, i) => fixedTo(value, [4, 7, 5][i] ?? 0))).toEqual(printed.uncertainties);
    expect(observed.correlations.map((value) => fixedTo(value, 2))).toEqual(printed.correlations);
  });

  test("the tool's inputs are correlated as asked", () => {
    const { voltage, current, phase } = model(printed);
    expect(correlation(sure(voltage), sure(current))).toBeCloseTo(-0.36, 12);
    expect(correlation(sure(voltage), sure(phase))).toBeCloseTo(0.86, 12);
    expect(correlation(sure(current), sure(phase))).toBeCloseTo(-0.65, 12);
  });

  test("R 127.732, X 219.847, Z 254.260 Ω", () => {
    // H.2 (printed).
    const { resistance, reactance, impedance } = model(observed);
    const values = [resistance, reactance, impedance].map((q) => fixedTo(numberIn(q, "1"), 3));
    expect(values).toEqual([127.732, 219.847, 254.26]);
  });

  test("their uncertainties", () => {
    // From the rounded inputs 0.070, 0.296, 0.237 Ω; from the readings 0.071, 0.296, 0.236 Ω (computed, equation 16;
    // printed 0.070, 0.30 and 0.24).
    const uncertainties = ({ resistance, reactance, impedance }: ReturnType<typeof model>) =>
      [resistance, reactance, impedance].map((q) => fixedTo(u(q), 3));
    expect(uncertainties(model(printed))).toEqual([0.07, 0.296, 0.237]);
    expect(uncertainties(model(observed))).toEqual([0.071, 0.296, 0.236]);
  });

  test("their correlations", () => {
    // H.2 (printed): r(R, X) -0.588, r(R, Z) -0.485, r(X, Z) 0.993.
    const { resistance, reactance, impedance } = model(observed);
    expect(fixedTo(correlation(sure(resistance), sure(reactance)), 3)).toBe(-0.588);
    expect(fixedTo(correlation(sure(resistance), sure(impedance)), 3)).toBe(-0.485);
    expect(fixedTo(correlation(sure(reactance), sure(impedance)), 3)).toBe(0.993);
  });

  test("a second path: the covariance matrix between the partial derivatives of R", () => {
    const { values, uncertainties, correlations } = printed;
    const [v, i, p] = values;
    const slopes = [Math.cos(p) / i, (-v * Math.cos(p)) / i ** 2, (-v * Math.sin(p)) / i];
    const parts = slopes.map((slope, k) => slope * (uncertainties[k] ?? 0));
    const [a = 0, b = 0, c = 0] = parts;
    const cross = a * b * correlations[0] + a * c * correlations[1] + b * c * correlations[2];
    expect(u(model(printed).resistance)).toBeCloseTo(Math.sqrt(a * a + b * b + c * c + 2 * cross), 12);
  });

  test("without the correlations u(R) would be wrong by more than twice", () => {
    const apart = model({ ...printed, correlations: [0, 0, 0] });
    expect(u(apart.resistance) / u(model(printed).resistance)).toBeGreaterThan(2);
  });

  /** Three correlated readings out of three independent ones by the Cholesky factor of the correlation matrix. */
  function model({ values, uncertainties, correlations: [vi, vp, ip] }: Inputs) {
    const independent = ["first", "second", "third"].map((id) => standard(id, 0, 1));
    const diagonal = Math.sqrt(1 - vi ** 2);
    const across = (ip - vi * vp) / diagonal;
    const correlated = (value: number, uncertainty: number, row: readonly number[]) =>
      independent.reduce((sum, source, i) => add(sum, scale(source, (row[i] ?? 0) * uncertainty)), plain(value));
    const voltage = correlated(values[0], uncertainties[0], [1]);
    const current = correlated(values[1], uncertainties[1], [vi, diagonal]);
    const third = [vp, across, Math.sqrt(1 - vp ** 2 - across ** 2)];
    const phase = multiply(correlated(values[2], uncertainties[2], third), exact(1, "rad"));
    const impedance = divide(voltage, current);
    const resistance = multiply(impedance, cosine(phase));
    return { voltage, current, phase, impedance, resistance, reactance: multiply(impedance, sine(phase)) };
  }

  function average(list: readonly number[]): number {
    return list.reduce((a, b) => a + b) / list.length;
  }

  /** Covariance of two means. JCGM 100:2008, equation 17 (from memory). */
  function covarianceOfMeans(a: readonly number[], b: readonly number[]): number {
    const products = a.map((value, i) => (value - average(a)) * ((b[i] ?? 0) - average(b)));
    return products.reduce((x, y) => x + y) / (a.length * (a.length - 1));
  }

  function spread(list: readonly number[]): number {
    return Math.sqrt(covarianceOfMeans(list, list));
  }

  function together(a: readonly number[], b: readonly number[]): number {
    return covarianceOfMeans(a, b) / (spread(a) * spread(b));
  }
});

// line: GUM-4.3.4, GUM-4.3.5, GUM-4.3.7, GUM-4.4.3 and GUM-4.4.5: JCGM 100:2008, the examples there (from memory)
describe("GUM-4.3.4, GUM-4.3.5, GUM-4.3.7, GUM-4.4.3 and GUM-4.4.5: standard uncertainties from intervals", () => {
  test("GUM-4.3.4: 129 µΩ at 99 % is 50 µΩ", () => {
    // JCGM 100:2008, 4.3.4 example (from memory): 129 µΩ / 2.58 = 50 µΩ.
    expect(Math.abs(normalCdf(2.58) - normalCdf(-2.58) - 0.99)).toBeLessThan(0.0002);
    expect(129 / 2.58).toBeCloseTo(50, 12);
  });

  test("GUM-4.3.5: ± 0.04 mm covering one half is u = 0.06 mm", () => {
    // JCGM 100:2008, 4.3.5 example (from memory): 1.48 × 0.04 mm = 0.06 mm.
    const covered = (uncertainty: number) => normalCdf(0.04 / uncertainty) - normalCdf(-0.04 / uncertainty);
    expect(Math.abs(covered(1.48 * 0.04) - 0.5)).toBeLessThan(0.001);
    expect(fixedTo(1.48 * 0.04, 2)).toBe(0.06);
  });

  test("GUM-4.3.7 and GUM-4.4.5: rectangular and triangular intervals carried through", () => {
    // JCGM 100:2008, 4.3.7 and 4.4.5 (from memory): half-width 0.40e-6 → u 0.23e-6; 96 to 104 °C → u 2.3 °C, or
    // 1.6 °C when triangular, a / √6.
    expect(fixedTo(u(scale(standard("α", 16.52, rectangular(0.4)), 1)), 2)).toBe(0.23);
    expect(fixedTo(u(standard("t", 100, rectangular(4))), 1)).toBe(2.3);
    expect(print(standard("t", 100, 4 / Math.sqrt(6)), "1")).toBe("100.0 ± 3.3");
  });

  test("GUM-4.4.3: the mean of 20 temperatures 100.145 °C with u = s / √20 = 0.333 °C", () => {
    // JCGM 100:2008, 4.4.3 (from memory): mean 100.145, s 1.489, s/√20 0.333, and the readings themselves.
    const temperatures = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
      101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const average = numberIn(mean(temperatures.map(plain)), "1");
    const squares = temperatures.map((t) => (t - average) ** 2).reduce((a, b) => a + b);
    const spread = Math.sqrt(squares / 19);
    expect(average).toBeCloseTo(100.145, 10);
    expect(Math.abs(spread - 1.489)).toBeLessThan(0.0005);
    const uncertain = mean(temperatures.map((t, i) => standard(`t${i}`, t, spread)));
    expect(Math.abs(u(uncertain) - 0.333)).toBeLessThan(0.0005);
  });
});

// line: GUM-5.1.5 and GUM-G4: JCGM 100:2008, 5.1.5 and G.4.1 (from memory)
// line: EURACHEM-A1: EURACHEM/CITAC guide, example A1 (printed; its inputs from memory)
describe("GUM-5.1.5, GUM-G4 and EURACHEM-A1: sums, products, quotients", () => {
  test("GUM-5.1.5: u of 12 µV with a rectangular ± 15 µV gives 15 µV", () => {
    // JCGM 100:2008, 4.3.7 and 5.1.5 (from memory): 12 µV and 8.66 µV give 14.8 µV, printed as 15 µV.
    const sum = add(standard("V", 0.928_571, 12e-6), standard("ΔV", 0, rectangular(15e-6)));
    expect(Math.abs(u(sum) - 14.8e-6)).toBeLessThan(0.05e-6);
  });

  test("GUM-G4: a product of readings with 0.25 %, 0.57 % and 0.82 % has 1.03 %", () => {
    // JCGM 100:2008, G.4.1 (from memory): 1.03 %; the values do not matter, relative variances add (5.1.6).
    const y = product(standard("x1", 4, 0.01), standard("x2", 20, 0.114), standard("x3", 0.5, 0.0041));
    expect(Math.abs(u(y) / numberIn(y, "1") - 0.0103)).toBeLessThan(0.000_05);
  });

  test("EURACHEM-A1: a solution's concentration", () => {
    // EURACHEM/CITAC guide, example A1: m 100.28 mg (u 0.05), purity 0.9999 (u 0.000058), V 100 ml (u 0.0665) (inputs
    // from memory) → 1002.7 mg/l, u 0.8352 (printed).
    const mass = standard("m", 100.28, 0.05);
    const concentration = scale(
      divide(product(mass, standard("P", 0.9999, 0.000_058)), standard("V", 100, 0.0665)),
      1000,
    );
    expect(Math.abs(numberIn(concentration, "1") - 1002.7)).toBeLessThan(0.05);
    expect(Math.abs(u(concentration) - 0.835)).toBeLessThan(0.001);
  });
});

// line: GUM-7.2.6: JCGM 100:2008, 7.2.6 (from memory)
describe("GUM-7.2.6: digits", () => {
  test("the value ends where its uncertainty does", () => {
    // JCGM 100:2008, 7.2.6 (from memory): y = 10.057 62 Ω with u_c = 27 mΩ is rounded to 10.058 Ω; 28.05 kHz to 28 kHz.
    expect(print(standard("R", 10.057_62, 0.027), "1")).toBe("10.058 ± 0.054");
    expect(print(standard("f", 1234.56, 28.05 / 2), "1")).toBe("1235 ± 28");
  });
});

// line: MAG-1 and MAG-2: JCGM 100:2008, 5.1.6 (computed); Klever 2022, doi 10.1055/s-0041-1735316 (printed)
// line: MAG-3: Proc. British Hip Society, J Bone Joint Surg Br 88-B Supp II 247 (printed)
// line: MAG-4: physics textbooks, M = SID / (SID - OID) (printed)
describe("MAG-1 to MAG-4: as quantities alone", () => {
  // Marker 25.00 mm (u 0.02), its image 28.75 mm (u 0.15), the bone's image 414 mm (u 0.5).
  const magnification = divide(standard("seen", 28.75, 0.15, "mm"), standard("marker", 25, 0.02, "mm"));
  const length = divide(standard("bone", 414, 0.5, "mm"), magnification);

  test("MAG-1: a true length and its uncertainty", () => {
    // JCGM 100:2008, 5.1.6, relative variances of a quotient (computed): M 1.1500 (u 0.00607), 360.00 mm (u 1.949).
    expect(numberIn(magnification, "1")).toBeCloseTo(1.15, 12);
    expect(Math.abs(u(magnification) - 0.006_07)).toBeLessThan(0.000_005);
    expect(numberIn(length, "mm")).toBeCloseTo(360, 10);
    expect(Math.abs(u(length) - 1.949)).toBeLessThan(0.001);
    expect(halfWidthIn(sure(length), "mm")).toBeCloseTo(3.9, 2);
    expect(print(length, "mm")).toBe("360.0 mm ± 3.9 mm");
  });

  test("MAG-2: with a marker that may lie ± 1 % out of the plane of the bone", () => {
    // Klever 2022, doi 10.1055/s-0041-1735316: 1 cm of marker height is about 1 % of size (printed); u 2.850 mm
    // (computed).
    const outOfPlane = standard("plane", 1, rectangular(0.01));
    expect(Math.abs(u(multiply(length, outOfPlane)) - 2.85)).toBeLessThan(0.001);
  });

  test("MAG-3: a coin of 24.5 mm imaged at 27.17 to 29.40 mm", () => {
    // Proc. British Hip Society, JBJS Br 88-B Supp II 247 (printed): 10.9 to 20.0 %.
    const of = (seen: number) => numberIn(divide(exact(seen, "mm"), exact(24.5, "mm")), "1");
    expect([fixedTo(of(27.17), 3), fixedTo(of(29.4), 3)]).toEqual([1.109, 1.2]);
  });

  test("MAG-4: from distances: source to film over source to object", () => {
    // Physics texts (printed): 100 / 40 = 2.5; 42 / (42 - 10) = 1.3125; 40 / (40 - 8) = 1.25.
    const of = (film: number, gap: number) => {
      const toFilm = exact(film, "cm");
      return numberIn(divide(toFilm, subtract(toFilm, exact(gap, "cm"))), "1");
    };
    expect([of(100, 60), of(42, 10), of(40, 8)]).toEqual([2.5, 1.3125, 1.25]);
  });
});

// line: JCGM-101-9.2: JCGM 101:2008, 9.2.2 to 9.2.4 (printed, and recomputed here)
describe("JCGM-101-9.2: an additive model against a simulation", () => {
  const model = (inputs: readonly Quantity[]) => inputs.reduce(add);
  const inputs = (uncertainties: readonly number[]) => uncertainties.map((each, i) => standard(`X${i + 1}`, 0, each));

  test("four standard normal inputs: u 2.00, 95 % within ± 3.92", () => {
    // JCGM 101:2008, 9.2 (printed, and recomputed here): 2.00, [-3.92, 3.92].
    const linear = u(model(inputs([1, 1, 1, 1])));
    expect(linear).toBe(2);
    expect(Math.abs(1.96 * linear - 3.92)).toBeLessThan(1e-12);
    const simulated = simulate([1, 1, 1, 1].map(() => normal));
    expect(Math.abs(simulated.u - linear)).toBeLessThan(0.02);
    expect(Math.abs(simulated.high - 3.92)).toBeLessThan(0.06);
  });

  test("four rectangular inputs of the same u: u 2.00, the interval is a little narrower", () => {
    // JCGM 101:2008, 9.2 (printed, and recomputed here): 2.00, Monte Carlo [-3.88, 3.88].
    const flat = (next: () => number) => (2 * next() - 1) * Math.sqrt(3);
    const simulated = simulate([flat, flat, flat, flat]);
    expect(Math.abs(simulated.u - u(model(inputs([1, 1, 1, 1]))))).toBeLessThan(0.02);
    expect(Math.abs(simulated.high - 3.88)).toBeLessThan(0.06);
    expect(Math.abs(simulated.low + 3.88)).toBeLessThan(0.06);
  });

  test("one input ten times as uncertain: u 10.15", () => {
    // JCGM 101:2008, 9.2.4 (printed, and recomputed here): 10.15 = √103; with rectangular inputs [-17.0, 17.0].
    const linear = u(model(inputs([1, 1, 1, 10])));
    expect(Math.abs(linear - 10.15)).toBeLessThan(0.005);
    const flat = (by: number) => (next: () => number) => by * (2 * next() - 1) * Math.sqrt(3);
    const simulated = simulate([flat(1), flat(1), flat(1), flat(10)]);
    expect(Math.abs(simulated.u - linear)).toBeLessThan(0.05);
    expect(Math.abs(simulated.high - 17)).toBeLessThan(0.15);
  });

  /** 200,000 trials of the sum: standard deviation and the middle 95 %. */
  function simulate(distributions: readonly ((next: () => number) => number)[]) {
    const next = seeded(20_080_101);
    const trials = Float64Array.from({ length: 200_000 }, () =>
      distributions.map((draw) => draw(next)).reduce((a, b) => a + b),
    ).sort();
    const average = trials.reduce((a, b) => a + b) / trials.length;
    const variance = trials.map((t) => (t - average) ** 2).reduce((a, b) => a + b) / (trials.length - 1);
    const at = (share: number) => trials[Math.round(share * trials.length)] ?? Number.NaN;
    return { u: Math.sqrt(variance), low: at(0.025), high: at(0.975) };
  }

  /** Box and Muller 1958. */
  function normal(next: () => number): number {
    return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
  }

  /** Marsaglia's xorshift with 32 bits (2003), so that every run is the same. */
  function seeded(seed: number): () => number {
    let state = seed;
    return () => {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      return (state >>> 0) / 2 ** 32;
    };
  }
});

function fixedTo(value: number, decimals: number): number {
  return Math.round(value * 10 ** decimals) / 10 ** decimals;
}
