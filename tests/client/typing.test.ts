/** Holds the editor's typing habits to the layout: what its rules would indent is how the samples stand. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import habits from "../../grammar/language-configuration.json" with { type: "json" };

const root = new URL("../../samples/", import.meta.url);
const samples = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((path) => path.endsWith(".isthmus"));
const increase = new RegExp(habits.indentationRules.increaseIndentPattern);
const decrease = new RegExp(habits.indentationRules.decreaseIndentPattern);

test.each(samples)("indenting samples/%s as it is typed leads to its layout", (name) => {
  const lines = readFileSync(new URL(name, root), "utf8").split("\n");
  let depth = 0;
  let goesOn = false;
  for (const line of lines) {
    if (line.trim() === "") continue;
    if (decrease.test(line)) depth -= 1;
    // A statement that goes on after a comma stands two levels further in; the editor leaves that to the layout.
    expect(line).toBe("  ".repeat(goesOn ? depth + 2 : depth) + line.trim());
    if (increase.test(line)) depth += 1;
    goesOn = line.endsWith(",") && !line.trim().startsWith("#");
  }
  expect(depth).toBe(0);
});

describe("a line that opens no block", () => {
  test.each(['step "a {"', "# {", 'step "a" # {', "ream 8 mm"])("%s", (line) => {
    expect(increase.test(line)).toBe(false);
  });
});

test.each(['plan "a # b" {', "images { # why", "  case TN-1 {"])("%s opens a block", (line) => {
  expect(increase.test(line)).toBe(true);
});

/** What Enter does at the end of a line, told by the first rule that fits. */
function onEnter(line: string, previous = ""): { readonly indent: string; readonly appendText: string } | undefined {
  return habits.onEnterRules.find(
    (rule) =>
      new RegExp(rule.beforeText).test(line) &&
      (rule.previousLineText === undefined || new RegExp(rule.previousLineText).test(previous)),
  )?.action;
}

describe("Enter", () => {
  test("goes on with a note, but not with an empty one or a comment", () => {
    expect(onEnter("  ## The far end first.")).toEqual({ indent: "none", appendText: "## " });
    expect(onEnter("  ## ")).toBeUndefined();
    expect(onEnter("  # aside")).toBeUndefined();
  });

  test("after a comma goes four in, once", () => {
    expect(onEnter("  lock D2,", "  unreamed")).toEqual({ indent: "indent", appendText: "  " });
    expect(onEnter("  lock D2, ", "")).toEqual({ indent: "indent", appendText: "  " });
    expect(onEnter("      drilled 31 mm,", "  lock D2,")).toBeUndefined();
    expect(onEnter("  # lock D2,", "")).toBeUndefined();
  });
});

test("a double click takes a whole word of the language", () => {
  const word = new RegExp(`^(?:${habits.wordPattern})$`);
  for (const each of ["knee-flexion", "TN-0417", "P1", "12.5"]) expect(each).toMatch(word);
  expect("knee flexion").not.toMatch(word);
});
