/** Laws and corners of the table of units. The factors themselves are held against an outside library in `published/units`. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Dimension } from "../../server/quantity/quantity.ts";
import type { DimensionName } from "../../server/quantity/units.ts";
import {
  dimensionName,
  dimensionOf,
  fromBase,
  sameDimension,
  toBase,
  unit,
  units,
  usualUnit,
} from "../../server/quantity/units.ts";
import { runs } from "../runs.ts";

const anyUnit = fc.constantFrom(...units());
const realistic = fc.oneof(
  fc.integer({ min: -9_999_999, max: 9_999_999 }).map((whole) => whole / 1000),
  // Doubles so small that they have lost digits already are left out.
  fc.double({ min: -1e9, max: 1e9, noNaN: true }).filter((value) => value === 0 || Math.abs(value) > 1e-290),
);

describe("the table", () => {
  test("has every unit word of the language and of the display, once", () => {
    const words = units().map(({ word }) => word);
    const expected =
      "mm cm m deg rad g kg minutes hours days weeks months years mmHg kPa MPa GPa N kN Nm ml % turns HU 1 N·m² mm/turn mm² mm³";
    expect([...words].sort()).toEqual(expected.split(" ").sort());
    for (const word of words) expect(unit(word)?.word).toBe(word);
  });

  test("knows no other word, also none of Object's own", () => {
    for (const word of ["", "mm ", "MM", "in", "°", "constructor", "__proto__", "toString"]) {
      expect(unit(word)).toBeUndefined();
    }
  });

  test("factor, ratio and exact ratio are the same number", () => {
    for (const { word, factor, exact, ratio } of units()) {
      expect(ratio[0] / ratio[1], word).toBe(factor);
      if (word === "rad") expect(exact).toBeUndefined();
      else expect([BigInt(ratio[0]), BigInt(ratio[1])], word).toEqual(exact);
    }
  });

  test("each doc is one sentence", () => {
    for (const { doc } of units()) expect(doc).toMatch(/^[A-Z].*\.$/);
  });

  test("singular words", () => {
    const own = new Map([
      ["minutes", "minute"],
      ["hours", "hour"],
      ["days", "day"],
      ["weeks", "week"],
      ["months", "month"],
      ["years", "year"],
      ["turns", "turn"],
    ]);
    for (const { word, one } of units()) expect(one).toBe(own.get(word) ?? word);
  });
});

describe("conversion", () => {
  test("there and back gives the number again, to the last digits of a double", () => {
    fc.assert(
      fc.property(anyUnit, realistic, (of, value) => {
        const back = fromBase(toBase(value, of), of);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(Math.abs(value) * 2 ** -51);
      }),
      { numRuns: runs(5000) },
    );
  });

  test("through another unit of the dimension gives the number again", () => {
    const pair = anyUnit.chain((a) =>
      fc.tuple(fc.constant(a), fc.constantFrom(...units().filter((b) => b.dimension === a.dimension))),
    );
    fc.assert(
      fc.property(pair, realistic, ([a, b], value) => {
        const there = fromBase(toBase(value, a), b);
        const back = fromBase(toBase(there, b), a);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(Math.abs(value) * 2 ** -50);
      }),
      { numRuns: runs(5000) },
    );
  });

  test("per cent keeps its decimals", () => {
    const percent = unit("%");
    expect(percent && toBase(37, percent)).toBe(0.37);
    expect(percent && toBase(7, percent)).toBe(0.07);
  });
});

describe("dimensions", () => {
  const names: readonly DimensionName[] = [...new Set(units().map(({ dimension }) => dimension))];

  test("each name gives its exponents and back", () => {
    for (const name of names) expect(dimensionName(dimensionOf(name))).toBe(name);
  });

  test("exponents as the definitions have them: N = kg m/s², Pa = N/m²", () => {
    const table: readonly (readonly [DimensionName, Partial<Dimension>])[] = [
      ["length", { length: 1 }],
      ["angle", { angle: 1 }],
      ["mass", { mass: 1 }],
      ["time", { time: 1 }],
      ["pressure", { length: -1, mass: 1, time: -2 }],
      ["force", { length: 1, mass: 1, time: -2 }],
      ["moment", { length: 2, mass: 1, time: -2 }],
      ["volume", { length: 3 }],
      ["share", {}],
      ["rotation", { turn: 1 }],
      ["density", { attenuation: 1 }],
      ["area", { length: 2 }],
      ["length per turn", { length: 1, turn: -1 }],
      ["bending stiffness", { length: 3, mass: 1, time: -2 }],
    ];
    const none = { length: 0, mass: 0, time: 0, angle: 0, turn: 0, attenuation: 0 };
    for (const [name, exponents] of table) expect(dimensionOf(name), name).toEqual({ ...none, ...exponents });
    expect(table.map(([name]) => name).sort()).toEqual([...names].sort());
  });

  test("no two names are the same dimension, whichever object holds it", () => {
    for (const a of names) {
      for (const b of names) expect(sameDimension(dimensionOf(a), { ...dimensionOf(b) }), `${a}, ${b}`).toBe(a === b);
    }
  });

  test("one exponent apart is another dimension, for each base", () => {
    const none = dimensionOf("share");
    for (const key of ["length", "mass", "time", "angle", "turn", "attenuation"] as const) {
      expect(sameDimension(none, { ...none, [key]: 1 }), key).toBe(false);
    }
  });

  test("without a name it is told from its bases", () => {
    const none = dimensionOf("share");
    const told = (exponents: object) => dimensionName({ ...none, ...exponents });
    expect(told({ length: 4 })).toBe("length to the power 4");
    expect(told({ length: 3, time: -2 })).toBe("length cubed per time squared");
    expect(told({ time: -1 })).toBe("per time");
    expect(told({ length: 1, angle: 1 })).toBe("length times angle");
    expect(told({ turn: -1, attenuation: 1, mass: -1 })).toBe("density per mass per rotation");
  });

  test("the usual unit is the first of its dimension", () => {
    expect(usualUnit(dimensionOf("length"))?.word).toBe("mm");
    expect(usualUnit(dimensionOf("share"))?.word).toBe("1");
    expect(usualUnit({ ...dimensionOf("length"), length: 9 })).toBeUndefined();
  });
});
