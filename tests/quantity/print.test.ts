/** How quantities are written: the published rule, its corners, and the law that a text never contradicts the decision. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  add,
  compare,
  divide,
  exact,
  multiply,
  plain,
  scale,
  subtract,
  unknown,
} from "../../server/quantity/arithmetic.ts";
import { compareTexts, decimalsFor, fixedText, withoutTrailingZeros } from "../../server/quantity/decimal.ts";
import { squareRoot } from "../../server/quantity/elementary.ts";
import { print, printAgainst, printNumber, printPercent, printValue } from "../../server/quantity/print.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { units } from "../../server/quantity/units.ts";
import { runs } from "../runs.ts";
import { fromDouble, fromText, magnitude, minus, order, rational, times } from "./rational.ts";
import { reading, sure } from "./sure.ts";

const mm = (value: number, typed?: string) => exact(value, "mm", typed);
const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
const realistic = fc.integer({ min: -9_999_999, max: 9_999_999 }).map((whole) => whole / 10_000);
const plainDecimal = /^-?\d+(\.\d+)?$/;

describe("decimal text", () => {
  test("ties go away from zero on the decimal text, not on the double below it", () => {
    const rounded: readonly (readonly [number, number, string])[] = [
      [1.005, 2, "1.01"],
      [-1.005, 2, "-1.01"],
      [2.675, 2, "2.68"],
      [0.335 * 3, 2, "1.01"],
      [0.5, 0, "1"],
      [1.5, 0, "2"],
      [2.5, 0, "3"],
      [-2.5, 0, "-3"],
      [0.05, 1, "0.1"],
      [0.049999, 1, "0.0"],
      [9.995, 2, "10.00"],
      [999_999.9999, 2, "1000000.00"],
    ];
    for (const [value, decimals, text] of rounded) expect(fixedText(value, decimals), `${value}`).toBe(text);
  });

  test("the noise of doubles is never shown", () => {
    expect(fixedText(0.1 + 0.2, 14)).toBe("0.30000000000000");
    expect(fixedText(1.1 * 1.1, 10)).toBe("1.2100000000");
    expect(printNumber(0.1 + 0.2, 30)).toBe("0.3");
    expect(printNumber(4.35 * 100, 30)).toBe("435");
  });

  test("tens, hundreds, large and small, without an exponent", () => {
    expect([fixedText(361_739, -2), fixedText(49, -2), fixedText(50, -2), fixedText(-49, -2)]).toEqual([
      "361700",
      "0",
      "100",
      "0",
    ]);
    expect(fixedText(1e21, 1)).toBe("1000000000000000000000.0");
    expect(fixedText(123_456_789_012_345, 0)).toBe("123456789012345");
    expect(fixedText(1.5e-7, 8)).toBe("0.00000015");
    expect(fixedText(1e-300, 3)).toBe("0.000");
    expect(fixedText(6e-4, 3)).toBe("0.001");
    expect(fixedText(Number.MAX_VALUE, 0)).toHaveLength(309);
    expect(fixedText(5, -1000)).toBe("0");
  });

  test("never -0", () => {
    for (const value of [-0, -0.001, -0.0049]) expect(fixedText(value, 2)).toBe("0.00");
    expect(fixedText(-0.005, 2)).toBe("-0.01");
    expect(printNumber(-0.004, 2)).toBe("0");
  });

  test("any finite double: a plain decimal within half a place, and half a unit of the 15th digit", () => {
    fc.assert(
      fc.property(fc.oneof(finite, realistic), fc.integer({ min: -5, max: 20 }), (value, decimals) => {
        const text = fixedText(value, decimals);
        expect(text).toMatch(plainDecimal);
        expect(text).not.toMatch(/^-[0.]*$/);
        expect(text.split(".")[1]?.length ?? 0).toBe(Math.max(0, decimals));
        const off = magnitude(minus(fromText(text), fromDouble(value)));
        const place = decimals >= 0 ? rational(1n, 10n ** BigInt(decimals)) : rational(10n ** BigInt(-decimals));
        const halfPlace = times(place, rational(1n, 2n));
        const digits = times(magnitude(fromDouble(value)), rational(5n, 10n ** 15n));
        const bound = rational(
          halfPlace.over * digits.under + digits.over * halfPlace.under,
          halfPlace.under * digits.under,
        );
        expect(order(off, bound)).toBeLessThanOrEqual(0);
      }),
      { numRuns: runs(5000) },
    );
  });

  test("a decimal of up to 15 digits comes back as it was", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999_999 }), fc.integer({ min: 0, max: 6 }), (whole, decimals) => {
        const digits = String(whole).padStart(decimals + 1, "0");
        const head = digits.slice(0, digits.length - decimals);
        const text = decimals === 0 ? head : `${head}.${digits.slice(-decimals)}`;
        expect(fixedText(Number(text), decimals)).toBe(text);
      }),
    );
  });

  test("decimals for significant digits, with the carry", () => {
    const cases: readonly (readonly [number, number, number])[] = [
      [0.0996, 2, 2],
      [0.0994, 2, 3],
      [0.00995, 2, 3],
      [9.96, 2, 0],
      [9.94, 2, 1],
      [3.059, 2, 1],
      [3059, 2, -2],
      [99.6, 2, -1],
      [1, 1, 0],
      [0.96, 1, 0],
      [0.0023, 1, 3],
    ];
    for (const [value, count, decimals] of cases) expect(decimalsFor(value, count), `${value}`).toBe(decimals);
  });

  test("trailing zeros go only behind a point", () => {
    expect(["1.50", "2.00", "100", "0.0", "10.010"].map(withoutTrailingZeros)).toEqual([
      "1.5",
      "2",
      "100",
      "0",
      "10.01",
    ]);
  });

  test("texts compare as the numbers they stand for", () => {
    fc.assert(
      fc.property(realistic, realistic, fc.nat(6), fc.nat(6), (a, b, da, db) => {
        const [x, y] = [fixedText(a, da), fixedText(b, db)];
        expect(compareTexts(x, y)).toBe(order(fromText(x), fromText(y)));
      }),
    );
    expect([compareTexts("1.50", "1.5"), compareTexts("-0.1", "0.02"), compareTexts("10", "9.9")]).toEqual([0, -1, 1]);
  });
});

describe("with uncertainty (JCGM 100:2008, 7.2.6)", () => {
  test("two digits of the half-width, the value to the same place", () => {
    const cases: readonly (readonly [number, number, string])[] = [
      [361.739, 3.059, "361.7 mm ± 3.1 mm"],
      [10.5217, 0.2654, "10.52 mm ± 0.27 mm"],
      [5, 0.0996, "5.00 mm ± 0.10 mm"],
      [5, 9.96, "5 mm ± 10 mm"],
      [361_739, 3059, "361700 mm ± 3100 mm"],
      [12, 3059, "0 mm ± 3100 mm"],
      [-0.04, 1.5, "0.0 mm ± 1.5 mm"],
      [416, 2, "416.0 mm ± 2.0 mm"],
      [0, 0.5, "0.00 mm ± 0.50 mm"],
      [1, 10, "1 mm ± 10 mm"],
    ];
    for (const [value, halfWidth, text] of cases) expect(print(reading("a", value, halfWidth), "mm")).toBe(text);
    expect(print(reading("m", 1.15, 0.008, "1"), "1")).toBe("1.1500 ± 0.0080");
  });

  test("in another unit", () => {
    expect(print(reading("a", 361.739, 3.059), "cm")).toBe("36.17 cm ± 0.31 cm");
    expect(printValue(reading("a", 361.739, 3.059), "mm")).toBe("361.7 mm");
  });

  test("finer than 12 decimals the half-width is rounded up, never away", () => {
    expect(print(reading("a", 5, 1e-20), "mm")).toBe("5.000000000000 mm ± 0.000000000001 mm");
    expect(print(reading("a", 5, 4e-12), "mm")).toBe("5.000000000000 mm ± 0.000000000004 mm");
    // So small that nothing is left of it in the larger unit.
    const tiny = scale(multiply(reading("a", 0, 1e-310), exact(1, "N")), 1e-15);
    expect(print(tiny, "Nm")).toBe("0.000000000000 Nm ± 0.000000000001 Nm");
  });

  test("any reading: a plain decimal, two digits of half-width, same place, half a place off at most", () => {
    const width = fc.integer({ min: 1, max: 99_999 }).chain((whole) => fc.nat(5).map((d) => whole / 10 ** d));
    fc.assert(
      fc.property(realistic, width, (value, halfWidth) => {
        const match = /^(\S+) mm ± (\S+) mm$/.exec(print(reading("a", value, halfWidth), "mm"));
        const [, shown = "", plusMinus = ""] = match ?? [];
        expect(shown).toMatch(plainDecimal);
        expect(shown.split(".")[1]?.length).toBe(plusMinus.split(".")[1]?.length);
        const significant = plusMinus.replace(".", "").replace(/^0+/, "");
        if (plusMinus.includes(".") || halfWidth < 99.5) expect(significant).toHaveLength(2);
        else expect(significant.replace(/0+$/, "").length).toBeLessThanOrEqual(2);
        expect(Math.abs(Number(plusMinus) - halfWidth) / halfWidth).toBeLessThanOrEqual(0.05);
      }),
      { numRuns: runs(2000) },
    );
  });
});

describe("exact", () => {
  test("typed digits stay in the typed unit alone", () => {
    expect(print(mm(12.5, "12.50"), "mm")).toBe("12.50 mm");
    expect(print(mm(12.5, "12.50"), "cm")).toBe("1.25 cm");
    expect(print(mm(8.123456, "8.123456"), "mm")).toBe("8.123456 mm");
    expect(print(mm(0.001, "1e-3"), "mm")).toBe("0.001 mm");
    expect(print(mm(-0, "-0.0"), "mm")).toBe("0.0 mm");
    expect(print(add(mm(12.5, "12.50"), mm(0)), "mm")).toBe("12.5 mm");
  });

  test("computed: at most 0.01 mm, 0.1 deg, zeros off, no noise", () => {
    expect(print(add(mm(0.1), mm(0.2)), "mm")).toBe("0.3 mm");
    expect(print(divide(mm(10), plain(3)), "mm")).toBe("3.33 mm");
    expect(print(divide(exact(10, "deg"), plain(3)), "deg")).toBe("3.3 deg");
    expect(print(divide(mm(10), mm(11)), "1")).toBe("0.909");
    expect(print(mm(279), "mm")).toBe("279 mm");
    expect(print(mm(353.75), "m")).toBe("0.35375 m");
    expect(print(exact(12_345_678, "mm"), "mm")).toBe("12345678 mm");
    expect(print(exact(1e20, "mm"), "mm")).toBe("100000000000000000000 mm");
    expect(print(squareRoot(multiply(mm(-2), mm(-2))), "mm")).toBe("2 mm");
  });

  test("not 0 where it is not", () => {
    expect(print(mm(0.004), "mm")).toBe("0.004 mm");
    expect(print(mm(-0.0000234), "mm")).toBe("-0.00002 mm");
    expect(print(exact(0.02, "deg"), "deg")).toBe("0.02 deg");
    expect(print(mm(1e-12), "mm")).toBe("0 mm");
    expect(print(subtract(mm(0.3), add(mm(0.1), mm(0.2))), "mm")).toBe("0 mm");
  });

  test("one week, one turn; a plain ratio has no unit", () => {
    expect(["1", "2", "-1"].map((text) => print(exact(Number(text), "weeks", text), "weeks"))).toEqual([
      "1 week",
      "2 weeks",
      "-1 week",
    ]);
    expect(print(exact(14, "days"), "weeks")).toBe("2 weeks");
    expect(print(exact(1, "turns"), "turns")).toBe("1 turn");
    expect(print(plain(1), "1")).toBe("1");
    expect(print(exact(37, "%"), "%")).toBe("37 %");
    expect(print(exact(37, "%"), "1")).toBe("0.37");
  });
});

describe("what cannot be shown", () => {
  test("unknown, no such unit, a unit of something else", () => {
    for (const show of [print, printValue]) {
      expect(show(unknown("why"), "mm")).toBe("unknown");
      expect(show(mm(1), "inch")).toBe("unknown");
      expect(show(mm(1), "deg")).toBe("unknown");
    }
    expect(printAgainst(unknown("why"), mm(1), "mm")).toEqual({ value: "unknown", limit: "1 mm" });
    expect(printAgainst(mm(1), unknown("why"), "mm")).toEqual({ value: "1 mm", limit: "unknown" });
    expect(printAgainst(mm(1), exact(1, "deg"), "mm")).toEqual({ value: "1 mm", limit: "unknown" });
    expect(printAgainst(exact(1, "deg"), mm(1), "mm")).toEqual({ value: "unknown", limit: "1 mm" });
  });

  test("bare numbers", () => {
    expect([printNumber(1.2345, 2), printNumber(1.2, 2), printNumber(123_456, -2), printNumber(7, 0)]).toEqual([
      "1.23",
      "1.2",
      "123500",
      "7",
    ]);
    expect([printNumber(Number.NaN, 2), printNumber(Number.NEGATIVE_INFINITY, 2), printNumber(1, Number.NaN)]).toEqual([
      "unknown",
      "unknown",
      "unknown",
    ]);
    expect(printNumber(0.1, 1e9)).toBe("0.1");
    expect(printNumber(1, -1e9)).toBe("0");
    expect(printNumber(1.25, 1.9)).toBe("1.3");
  });

  test("any finite value, width and unit prints without an exponent, -0 or a number that is none", () => {
    fc.assert(
      fc.property(finite, fc.oneof(fc.constant(0), finite), fc.constantFrom(...units()), (value, width, of) => {
        const text = print(reading("a", value, Math.abs(width), of.word), of.word);
        expect(text).toMatch(/^(unknown|-?\d+(\.\d+)?( \D\S*)?( ± \d+(\.\d+)?( \D\S*)?)?)$/);
        expect(text).not.toMatch(/^-[0.]* /);
        expect(text).not.toMatch(/± [0.]*( |$)/);
      }),
      { numRuns: runs(3000) },
    );
  });
});

describe("per cent", () => {
  test("whole, and neither 0 nor 100 for what is not", () => {
    const cases: readonly (readonly [number, string])[] = [
      [0.37, "37 %"],
      [0.375, "38 %"],
      [0.996, "more than 99 %"],
      [0.995, "more than 99 %"],
      [0.9949, "99 %"],
      [1 - 1e-16, "more than 99 %"],
      [1, "100 %"],
      [0.003, "less than 1 %"],
      [0.005, "1 %"],
      [1e-300, "less than 1 %"],
      [0, "0 %"],
      [0.57, "57 %"],
      [Number.NaN, "unknown"],
    ];
    for (const [share, text] of cases) expect(printPercent(share), `${share}`).toBe(text);
  });
});

describe("value against limit", () => {
  const shown = (value: Quantity, limit: Quantity, of = "mm") => printAgainst(value, limit, of);

  test("as they are where they already tell", () => {
    expect(shown(reading("a", 361.739, 3.059), mm(345, "345"))).toEqual({
      value: "361.7 mm ± 3.1 mm",
      limit: "345 mm",
    });
    expect(shown(mm(1.5), mm(1.5, "1.50"))).toEqual({ value: "1.5 mm", limit: "1.50 mm" });
  });

  test("more digits where they do not", () => {
    expect(shown(mm(1.5001), mm(1.5, "1.5"))).toEqual({ value: "1.5001 mm", limit: "1.5 mm" });
    expect(shown(mm(10.044), mm(10.0405, "10.0405"))).toEqual({ value: "10.044 mm", limit: "10.0405 mm" });
    expect(shown(reading("a", 10.004, 3.059), mm(10, "10"))).toEqual({
      value: "10.004 mm ± 3.059 mm",
      limit: "10 mm",
    });
    expect(shown(mm(5.0001), mm(5.0002))).toEqual({ value: "5.0001 mm", limit: "5.0002 mm" });
    expect(shown(exact(5.04, "deg"), exact(5, "deg", "5"), "deg")).toEqual({ value: "5.04 deg", limit: "5 deg" });
  });

  test("the same where they are equal but for noise", () => {
    expect(shown(mm(2.005 + 1e-12), mm(2.005, "2.005"))).toEqual({ value: "2.005 mm", limit: "2.005 mm" });
    expect(shown(mm(2.004_999_999_9), mm(2.005))).toEqual({ value: "2.005 mm", limit: "2.005 mm" });
    const finest = mm(2.005_000_000_000_1, "2.0050000000001");
    expect(shown(mm(2.005), finest)).toEqual({ value: "2.0050000000001 mm", limit: "2.0050000000001 mm" });
  });

  test("however wide the half-width", () => {
    const { value, limit } = shown(reading("a", 3, 1e40), mm(2));
    expect([value.split(" ± ")[0], limit]).toEqual(["3 mm", "2 mm"]);
    const widest = shown(reading("a", 3 + 4e-9, 1e150), mm(3));
    expect([widest.value.split(" ± ")[0], widest.limit]).toEqual(["3.000000004 mm", "3 mm"]);
  });

  test("what is 0 by a thousand-millionth reads 0, what is more does not", () => {
    expect([printValue(mm(1e-9), "mm"), printValue(mm(-1e-9), "mm")]).toEqual(["0 mm", "0 mm"]);
    expect([printValue(mm(1.1e-9), "mm"), printValue(mm(-1.1e-9), "mm")]).toEqual([
      "0.000000001 mm",
      "-0.000000001 mm",
    ]);
  });

  test("law: the texts stand as the values do, and the plain text never says the opposite", () => {
    const limit = fc
      .tuple(fc.integer({ min: -50_000, max: 50_000 }), fc.boolean(), fc.constantFrom(0, 0, 0.02, 3.1))
      .map(([whole, typed, width]) => {
        const value = whole / 1000;
        const text = fixedText(value, 3);
        return width > 0 ? reading("limit", value, width) : mm(value, typed ? text : undefined);
      });
    const offset = fc
      .tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: 0, max: 12 }))
      .map(([whole, decimals]) => whole / 10 ** decimals);
    const width = fc.constantFrom(0, 0, 0, 0.0004, 0.3, 3.059, 250);
    const unitWord = fc.constantFrom("mm", "cm", "m");
    const pairs = runs(20_000);
    const seen = new Map<number, number>();
    fc.assert(
      fc.property(limit, offset, width, unitWord, (bound, by, plusMinus, of) => {
        const at = sure(bound).value + by;
        const value = plusMinus > 0 ? reading("value", at, plusMinus) : mm(at);
        const expected = compare(sure(value), sure(bound));
        seen.set(expected, (seen.get(expected) ?? 0) + 1);
        const texts = printAgainst(value, bound, of);
        expect(order(numberOf(texts.value), numberOf(texts.limit))).toBe(expected);
        // Two computed exact values end at the same place, so their plain texts may be alike but never the wrong way round.
        if (isComputed(value) && isComputed(bound) && expected !== 0) {
          expect([0, expected]).toContain(order(numberOf(print(value, of)), numberOf(print(bound, of))));
        }
      }),
      { numRuns: pairs },
    );
    for (const each of [-1, 0, 1]) expect(seen.get(each) ?? 0).toBeGreaterThan(pairs / 20);
  });

  function isComputed(q: Quantity): boolean {
    return q.kind === "known" && q.influences.length === 0 && q.typed === undefined;
  }

  function numberOf(text: string) {
    return fromText(text.split(" ")[0] ?? "");
  }
});
