/** The strict number reader: what it takes, what it refuses, and what odd digits may mean. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readNumber, readOddNumber } from "../../grammar/numbers.ts";
import { parse } from "../../grammar/parse.ts";
import { numbersIn } from "./sketch.ts";

describe("numbers", () => {
  test.each([
    ["0", 0],
    ["12", 12],
    ["12.5", 12.5],
    ["007", 7],
    ["1e-3", 0.001],
    ["2.5E+2", 250],
    ["1e15", 1e15],
    ["999999999999999", 999999999999999],
    ["1e-15", 1e-15],
    ["0.0000", 0],
    ["0e400", 0],
    ["0.1234567890123456789012345678901", 0.12345678901234568],
  ])("%s is read", (text, value) => {
    expect(readNumber(text)).toEqual({ kind: "number", value });
  });

  test.each([
    ...["", " ", "+5", "-5", ".5", "5.", "1_0", "0x10", "1e", "1e+", "1.2.3", "Infinity", "NaN", "1,5", "\ufeff12"],
    ...["１２", "٣", "12 ", "12\n", "1e5.5", "0b1", "1n", "--1", "1\u00a0000"],
  ])("%j is no number", (text) => {
    expect(readNumber(text)).toEqual({ kind: "malformed" });
  });

  test.each([
    ...["1e400", "1e-400", "1e16", "1e-16", "9007199254740993", "2.2250738585072012e-308", "5e-324", "1e308"],
    ...["1".repeat(33), "1".repeat(10_000), `0.${"0".repeat(40)}1`, "0.0000000000000000001", "1000000000000001"],
  ])("%s is out of range", (text) => {
    expect(readNumber(text)).toEqual({ kind: "out-of-range" });
  });

  test("any text of digits and signs is a number in range or refused, never Infinity, NaN or a lost value", () => {
    const signs = fc.constantFrom(..."0123456789.,eE+-_xX '\u00a0\u2212\u0663\uff11".split(""));
    fc.assert(
      fc.property(fc.string({ unit: signs, maxLength: 24 }), (text) => {
        const read = readNumber(text);
        const reference = referenceValue(text);
        if (read.kind !== "number") return reference === undefined || outside(reference);
        return Number.isFinite(read.value) && read.value === reference && !Object.is(read.value, -0);
      }),
      { numRuns: 20_000 },
    );
  });

  test("what is typed plainly is read as typed", () => {
    fc.assert(
      fc.property(fc.nat(999_999), fc.nat(9999), (whole, decimals) => {
        const text = `${whole}.${String(decimals).padStart(4, "0")}`;
        expect(readNumber(text)).toEqual({ kind: "number", value: (whole * 10_000 + decimals) / 10_000 });
      }),
    );
  });
});

/** A second reader, sign by sign; undefined when the text is no number. */
function referenceValue(text: string): number | undefined {
  const [mantissa = "", exponent, ...rest] = text.replace("E", "e").split("e");
  if (rest.length > 0 || (exponent !== undefined && !isDigits(exponent.replace(/^[+-]/, "")))) return undefined;
  const parts = mantissa.split(".");
  if (parts.length > 2 || !parts.every(isDigits)) return undefined;
  return Number(text);
}

function isDigits(text: string): boolean {
  return text.length > 0 && [...text].every((sign) => sign >= "0" && sign <= "9");
}

function outside(value: number): boolean {
  return value > 1e15 || value < 1e-15;
}

describe("odd numbers", () => {
  test.each([
    ["8,5", "decimal-comma", ["8.5"]],
    ["12,25", "decimal-comma", ["12.25"]],
    ["0,5", "decimal-comma", ["0.5"]],
    ["1000,5", "decimal-comma", ["1000.5"]],
    ["1,000", "thousands-separator", ["1000", "1.000"]],
    ["8,500", "thousands-separator", ["8500", "8.500"]],
    ["1,000,000", "thousands-separator", ["1000000"]],
    ["1,000.5", "thousands-separator", ["1000.5"]],
    ["1.000,5", "thousands-separator", ["1000.5"]],
    ["1.000.000", "thousands-separator", ["1000000"]],
    ["1'000", "thousands-separator", ["1000"]],
    ["1’000", "thousands-separator", ["1000"]],
    ["1 000", "thousands-separator", ["1000"]],
    ["1\u00a0000", "thousands-separator", ["1000"]],
    ["1\u202f000,5", "thousands-separator", ["1000.5"]],
    ["1_000", "thousands-separator", ["1000"]],
  ])("%s is a %s", (text, kind, readings) => {
    expect(readOddNumber(text)).toEqual({ kind, readings });
    const { tree, problems } = parse(`ream ${text} mm`);
    expect(problems.map(({ slug }) => slug)).toEqual([kind]);
    expect(problems[0]?.repairs?.map(({ edits }) => edits[0]?.text)).toEqual(readings);
    expect(numbersIn(tree)).toEqual([]);
    expect(tree.statements[0]?.broken).toBe(true);
  });

  test.each(["1.2.3", "1,2,3", "1.000.00", "10,00,000", "1 000,000.5"])("%s has no reading", (text) => {
    expect(readOddNumber(text)).toEqual({ kind: "malformed" });
  });

  test("digits set apart never become another number", () => {
    const sign = fc.constantFrom(",", ".", "'", "’", "_", " ", "\u00a0", "\u2009", "\u202f");
    const group = fc.string({ unit: fc.constantFrom(..."0123456789"), minLength: 1, maxLength: 4 });
    const odd = fc.array(fc.tuple(sign, group), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(group, odd, (first, rest) => {
        const text = first + rest.map((pair) => pair.join("")).join("");
        const whole = /^\d+(\.\d+)?$/.test(text);
        const { tree, problems } = parse(`ream ${text} mm`);
        expect(problems.length === 0).toBe(whole);
        expect(numbersIn(tree).length).toBe(whole ? 1 : 0);
      }),
      { numRuns: 3000 },
    );
  });
});
