/**
 * Every factor of the table of units against its definition as an exact ratio, and against mathjs as a second opinion.
 * Units mathjs does not have (turns, Hounsfield units, per cent) rest on their definition alone.
 */
import { unit as mathUnit } from "mathjs";
import { describe, expect, test } from "vitest";
import { divide, exact, multiply } from "../../server/quantity/arithmetic.ts";
import { fromBase, toBase, unit, units } from "../../server/quantity/units.ts";
import { numberIn, relativeError } from "../quantity/sure.ts";

/** How mathjs writes them. */
const spelled: ReadonlyMap<string, string> = new Map([
  ["mm", "mm"],
  ["cm", "cm"],
  ["m", "m"],
  ["deg", "deg"],
  ["rad", "rad"],
  ["g", "g"],
  ["kg", "kg"],
  ["minutes", "minute"],
  ["hours", "hour"],
  ["days", "day"],
  ["weeks", "week"],
  ["months", "month"],
  ["years", "year"],
  ["mmHg", "mmHg"],
  ["kPa", "kPa"],
  ["MPa", "MPa"],
  ["GPa", "GPa"],
  ["N", "N"],
  ["kN", "kN"],
  ["Nm", "N m"],
  ["ml", "ml"],
  ["mm²", "mm^2"],
  ["mm³", "mm^3"],
  ["N·m²", "N m^2"],
]);

/** mathjs 15 has mmHg as 133.322 Pa, rounded; every other factor as defined. */
const tolerance = (words: readonly string[]) => (words.includes("mmHg") ? 3e-6 : 1e-14);

// line: UNIT: mathjs 15 as a second opinion (computed)
describe("UNIT: against mathjs", () => {
  test("all ordered pairs of units of one dimension", () => {
    let pairs = 0;
    for (const from of units()) {
      for (const to of units()) {
        const [a, b] = [spelled.get(from.word), spelled.get(to.word)];
        if (from.dimension !== to.dimension || a === undefined || b === undefined) continue;
        const expected = mathUnit(1, a).toNumber(b);
        const found = fromBase(toBase(1, from), to);
        expect(relativeError(found, expected), `${from.word} in ${to.word}`).toBeLessThan(
          tolerance([from.word, to.word]),
        );
        pairs++;
      }
    }
    // 3² lengths, 2² angles, 2² masses, 6² times, 4² pressures, 2² forces, moment, 2² volumes, area, stiffness.
    expect(pairs).toBe(9 + 4 + 4 + 36 + 16 + 4 + 1 + 4 + 1 + 1);
  });

  test("products of units agree with the derived ones", () => {
    const one = (word: string) => exact(1, word);
    const derived: readonly (readonly [ReturnType<typeof exact>, string, string])[] = [
      [divide(one("N"), one("mm²")), "MPa", "N/mm^2"],
      [multiply(one("N"), one("m")), "Nm", "N m"],
      [multiply(one("Nm"), one("m")), "N·m²", "N m^2"],
      [multiply(one("GPa"), multiply(one("mm²"), one("mm²"))), "N·m²", "GPa mm^4"],
      [multiply(one("mm²"), one("cm")), "ml", "mm^2 cm"],
    ];
    for (const [q, word, expression] of derived) {
      const expected = mathUnit(expression).toNumber(spelled.get(word) ?? word);
      expect(relativeError(numberIn(q, word), expected), expression).toBeLessThan(1e-14);
    }
  });
});

// line: UNIT: the units' definitions: ISO 80000-4, IAU style manual 1989 (from memory)
describe("UNIT: by definition", () => {
  test("a millimetre of mercury is 13 595.1 kg/m³ × 9.80665 m/s² × 1 mm, exactly", () => {
    // Conventional millimetre of mercury (ISO 80000-4, from memory): 133.322387415 Pa.
    expect(unit("mmHg")?.exact).toEqual([135_951n * 980_665n, 10n ** 12n]);
  });

  test("the year is Julian (365.25 d) and the month a twelfth of it", () => {
    // IAU style manual 1989 (from memory): Julian year 365.25 d of 86 400 s.
    expect(unit("years")?.exact).toEqual([36_525n * 864n, 1n]);
    expect(unit("months")?.exact).toEqual([(36_525n * 864n) / 12n, 1n]);
    expect((36_525n * 864n) % 12n).toBe(0n);
  });

  test("those without a second opinion", () => {
    const exactly = ["1", "%", "turns", "HU", "mm/turn"].map((word) => unit(word)?.exact);
    expect(exactly).toEqual([
      [1n, 1n],
      [1n, 100n],
      [1n, 1n],
      [1n, 1n],
      [1n, 1n],
    ]);
    const pitch = multiply(exact(1.25, "mm/turn"), exact(2, "turns"));
    expect(numberIn(pitch, "mm")).toBe(2.5);
  });

  test("every unit is held either against mathjs or by its definition here", () => {
    const here = new Set([...spelled.keys(), "1", "%", "turns", "HU", "mm/turn"]);
    expect(
      units()
        .map(({ word }) => word)
        .filter((word) => !here.has(word)),
    ).toEqual([]);
  });
});
