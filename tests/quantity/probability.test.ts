/** Probabilities of being beyond a limit: exact ties, correlation, tails, and what would settle a question. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { add, divide, exact, multiply, scale } from "../../server/quantity/arithmetic.ts";
import { normalCdf, probabilityAbove, probabilityBelow, settling } from "../../server/quantity/probability.ts";
import { reading, sure } from "./sure.ts";

const mm = (value: number) => sure(exact(value, "mm"));
const uncertain = (id: string, value: number, halfWidth: number) => sure(reading(id, value, halfWidth));

describe("exact values", () => {
  test("1 or 0, and a value at the limit is neither above nor below", () => {
    expect([probabilityAbove(mm(2), mm(1)), probabilityAbove(mm(1), mm(2))]).toEqual([1, 0]);
    expect([probabilityBelow(mm(2), mm(1)), probabilityBelow(mm(1), mm(2))]).toEqual([0, 1]);
    const sum = sure(add(exact(0.1, "mm"), exact(0.2, "mm")));
    expect([probabilityAbove(sum, mm(0.3)), probabilityBelow(sum, mm(0.3))]).toEqual([0, 0]);
    expect([probabilityAbove(mm(1e-10), mm(0)), probabilityAbove(mm(1e-8), mm(0))]).toEqual([0, 1]);
  });

  test("an uncertain value against itself is exact", () => {
    const a = uncertain("a", 10, 1);
    expect([probabilityAbove(a, a), probabilityBelow(a, a)]).toEqual([0, 0]);
    const longer = sure(add(a, mm(0.001)));
    expect([probabilityAbove(longer, a), probabilityBelow(longer, a)]).toEqual([1, 0]);
  });
});

describe("uncertain values", () => {
  test("at the limit one half; a standard uncertainty above 84 %", () => {
    expect(probabilityAbove(uncertain("a", 10, 2), mm(10))).toBe(0.5);
    expect(probabilityAbove(uncertain("a", 11, 2), mm(10))).toBeCloseTo(0.8413447460685429, 14);
    expect(probabilityBelow(uncertain("a", 11, 2), mm(10))).toBeCloseTo(0.15865525393145707, 14);
  });

  test("both uncertain: their variances add; a shared reading does not count", () => {
    expect(probabilityAbove(uncertain("a", 10, 6), uncertain("b", 5, 8))).toBeCloseTo(normalCdf(1), 14);
    const marker = reading("marker", 1.15, 0.1, "1");
    const seen = reading("seen", 12, 0.2);
    const limit = sure(multiply(exact(10, "mm"), marker));
    const value = sure(add(multiply(exact(10, "mm"), marker), divide(seen, exact(100, "1"))));
    // Above by 0.12 mm with u 0.001 mm, though both have u 0.5 mm.
    expect(probabilityAbove(value, limit)).toBe(1);
  });

  test("above and below make 1 unless it is decided at the limit", () => {
    const number = fc.integer({ min: -1000, max: 1000 }).map((whole) => whole / 10);
    const width = fc.integer({ min: 1, max: 100 }).map((whole) => whole / 10);
    fc.assert(
      fc.property(number, number, width, width, (x, y, ux, uy) => {
        const [a, b] = [uncertain("a", x, ux), uncertain("b", y, uy)];
        const above = probabilityAbove(a, b);
        expect(above + probabilityBelow(a, b)).toBeCloseTo(1, 14);
        expect(above >= 0.5).toBe(x >= y);
      }),
    );
  });

  test("no number however far apart or certain gives an exception", () => {
    const any = fc.tuple(
      fc.double({ min: -1e150, max: 1e150, noNaN: true }),
      fc.double({ min: 0, max: 1e150, noNaN: true }),
    );
    fc.assert(
      fc.property(any, any, ([x, ux], [y, uy]) => {
        const probability = probabilityAbove(uncertain("a", x, ux), uncertain("b", y, uy));
        expect(probability).toBeGreaterThanOrEqual(0);
        expect(probability).toBeLessThanOrEqual(1);
      }),
    );
  });

  test("two things that cannot be compared are a mistake of the program", () => {
    expect(() => probabilityAbove(mm(1), sure(exact(1, "deg")))).toThrow(RangeError);
    expect(() => settling(mm(1), sure(exact(1, "deg")))).toThrow(RangeError);
  });
});

describe("what would settle it", () => {
  const scar = uncertain("scar", 100, 4);
  const marker = uncertain("marker", 0, 1);
  const value = sure(add(scar, marker));

  test("the leading reading, to the half-width at which the probability is 95 %", () => {
    const settled = settling(value, mm(98));
    expect(settled?.reading.id).toBe("scar");
    expect(settled?.halfWidth).toBe(4);
    const needed = settled?.needed ?? 0;
    const better = sure(add(uncertain("scar", 100, needed), marker));
    expect(probabilityAbove(better, mm(98))).toBeCloseTo(0.95, 12);
  });

  test("whichever side of the limit, whichever reading leads, whatever its factor", () => {
    const doubled = sure(add(scale(marker, -20), scar));
    const settled = settling(doubled, mm(105));
    expect(settled?.reading.id).toBe("marker");
    const better = sure(add(scale(uncertain("marker", 0, settled?.needed ?? 0), -20), scar));
    expect(probabilityBelow(better, mm(105))).toBeCloseTo(0.95, 12);
  });

  test("the leading reading is found wherever it stands", () => {
    const list = [1, 5, 3].map((width, i) => uncertain(`r${i}`, 10, width));
    expect(settling(sure(list.reduce((a, b) => sure(add(a, b)))), mm(30))?.reading.id).toBe("r1");
  });

  test("the leading reading may count against the value", () => {
    const shortened = sure(add(uncertain("a", 10, 1), scale(uncertain("b", 1, 5), -1)));
    expect(settling(shortened, mm(8.9))?.reading.id).toBe("b");
  });

  test("of two that count alike, the one named first", () => {
    const both = sure(add(uncertain("a", 10, 3), uncertain("b", 0, 3)));
    expect(settling(both, mm(9))?.reading.id).toBe("a");
    const against = sure(add(uncertain("a", 10, 3), scale(uncertain("b", 0, 3), -1)));
    expect(settling(against, mm(9))?.reading.id).toBe("a");
  });

  test("exactly 95 % is decided; a reading that would have to be exact gets no figure", () => {
    // 95 % of a standard normal distribution lie below 1.6448536269514722 (to the last digit of a double; from memory).
    const edge = 1.644_853_626_951_472_2;
    expect(settling(uncertain("a", edge, 2), mm(0))).toBeUndefined();
    expect(settling(uncertain("a", -edge, 2), mm(0))).toBeUndefined();
    expect(settling(uncertain("a", edge - 1e-12, 2), mm(0))?.needed).toBeCloseTo(2, 10);
    const two = sure(add(uncertain("a", edge, 2), uncertain("b", 0, 3)));
    expect(settling(two, mm(0))).toMatchObject({ reading: { id: "b" }, needed: undefined });
  });

  test("nothing when it is decided or exact; no figure when the others alone leave it open", () => {
    expect(settling(value, mm(90))).toBeUndefined();
    expect(settling(mm(1), mm(2))).toBeUndefined();
    expect(settling(value, mm(100.01))).toMatchObject({ halfWidth: 4, needed: undefined });
    expect(settling(value, mm(100))).toMatchObject({ needed: undefined });
  });
});
