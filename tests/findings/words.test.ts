/** The small pieces of wording that every rule shares. */
import { expect, test } from "vitest";
import { counted, listed, opening, quoted, visible, withArticle } from "../../server/findings/words.ts";

test("lists", () => {
  expect(listed([])).toBe("");
  expect(listed(["P1"])).toBe("P1");
  expect(listed(["P1", "P2"])).toBe("P1 and P2");
  expect(listed(["P1", "P2", "D1"], "or")).toBe("P1, P2 or D1");
});

test("counts", () => {
  expect([0, 1, 2].map((count) => counted(count, "screw", "screws"))).toEqual(["no screw", "one screw", "2 screws"]);
});

test("quotes what was typed, nothing hidden in it", () => {
  expect(quoted("scar")).toBe('"scar"');
  expect(quoted("a\u202eb\u200b\n")).toBe('"a\\u{202e}b\\u{200b}\\u{a}"');
  expect(visible("ß ± °")).toBe("ß ± °");
});

test("shortens what is long in its middle, whole characters only", () => {
  const long = quoted("😀".repeat(100));
  expect([...long]).toHaveLength(2 + 60);
  expect(long).toBe(`"${"😀".repeat(39)} … ${"😀".repeat(18)}"`);
  expect(quoted("x".repeat(60))).toBe(`"${"x".repeat(60)}"`);
});

test("opens sentences and puts articles", () => {
  expect(opening("a length")).toBe("A length");
  expect(opening("")).toBe("");
  expect(["length", "angle", "an angle", "12 mm", "a text"].map(withArticle)).toEqual([
    "a length",
    "an angle",
    "an angle",
    "12 mm",
    "a text",
  ]);
});
