/** The markers are themselves held to account: what is written is read back. */
import { describe, expect, test } from "vitest";
import { readMarked, writeMarked } from "./markers.ts";

const source = `plan "x" {
  nail one
       ^^^ error name-unknown: no such nail
  status dra$0ft
}`;

describe("marked texts", () => {
  test("marks are taken out and point at their stretch", () => {
    const { text, marks, cursor } = readMarked(source);
    expect(text).toBe('plan "x" {\n  nail one\n  status draft\n}');
    expect(marks.map(({ start, end }) => text.slice(start, end))).toEqual(["one"]);
    expect(text.slice(0, cursor).endsWith("status dra")).toBe(true);
  });

  test("written back they stand where they stood", () => {
    const { text, marks } = readMarked(source);
    expect(writeMarked(text, marks)).toBe(source.replace("$0", ""));
  });

  test("two cursors are refused", () => {
    expect(() => readMarked("a $0 b $0")).toThrow("one cursor");
  });
});
