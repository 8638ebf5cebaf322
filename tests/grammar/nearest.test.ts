/** Mistyped words and the known word that is meant. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nearest } from "../../grammar/nearest.ts";

const known = ["nail", "nail-length", "cap", "canal", "case", "landmark", "operation", "ap", "weight", "__proto__"];

describe("nearest", () => {
  test.each([
    ["nial", "nail"],
    ["nal", "nail"],
    ["naill", "nail"],
    ["wieght", "weight"],
    ["operaton", "operation"],
    ["oepraiton", "operation"],
    ["landmrk", "landmark"],
    ["nail-lenght", "nail-length"],
    ["cap", "cap"],
    ["ap", "ap"],
    ["__proto_", "__proto__"],
  ])("%s is %s", (word, meant) => {
    expect(nearest(word, known)).toBe(meant);
  });

  test.each(["", "xx", "pa", "zzzz", "operations-room", "constructor", "toString"])("%j is nothing known", (word) => {
    expect(nearest(word, known)).toBeUndefined();
  });

  test("one slip is allowed for each three letters, two at most", () => {
    expect(nearest("abcdefghi", ["abcdefgXY"])).toBe("abcdefgXY");
    expect(nearest("abcdefghi", ["abcdefXYZ"])).toBeUndefined();
    expect(nearest("abcde", ["abcXY"])).toBeUndefined();
    expect(nearest("ab", ["aX"])).toBeUndefined();
  });

  test("the first of equals wins and a nearer one beats it", () => {
    expect(nearest("lick", ["lock", "lack"])).toBe("lock");
    expect(nearest("canall", ["cannal", "canal"])).toBe("canal");
  });

  test("one slip anywhere in a long word is found", () => {
    const letters = fc.string({ unit: fc.constantFrom(..."abcdef"), minLength: 3, maxLength: 12 });
    fc.assert(
      fc.property(letters, fc.nat(), fc.constantFrom("drop", "double", "swap", "change"), (word, place, slip) => {
        const at = place % word.length;
        expect(nearest(word, [slipped(word, at, slip)]) !== undefined).toBe(true);
      }),
    );
  });

  test("a text without end is nobody's slip, and takes no time", () => {
    expect(nearest("a".repeat(100_000), ["a".repeat(99_999)])).toBeUndefined();
  });
});

function slipped(word: string, at: number, slip: string): string {
  const [before, sign, after] = [word.slice(0, at), word[at] ?? "", word.slice(at + 1)];
  if (slip === "drop") return before + after;
  if (slip === "double") return before + sign + sign + after;
  if (slip === "change") return `${before}z${after}`;
  return before + (after[0] ?? "") + sign + after.slice(1);
}
