/** Where the cursor is: in which block, statement and slot, and what is typed of the word there. */
import { describe, expect, test } from "vitest";
import { type Cursor, cursorAt } from "../../server/answers/cursor.ts";
import { readMarked } from "../markers.ts";

function at(source: string, typing: "word" | "number" = "word"): Cursor {
  const { text, cursor = 0 } = readMarked(source);
  return cursorAt(text, cursor, typing);
}

/** `operation: lock screw <length> [3]`: block, statement, clause, open slots, what is typed. */
function shown(source: string, typing: "word" | "number" = "word"): string {
  const { text } = readMarked(source);
  const cursor = at(source, typing);
  if (cursor.kind === "nowhere") return "nowhere";
  const typed = `[${text.slice(cursor.typed.start, cursor.typed.end)}]`;
  if (cursor.kind === "statement") return `${cursor.block}: ${typed}`;
  const { shaped, section, expected, opens } = cursor;
  const where = [shaped.statement.word.name, section.clause?.word ?? []].flat().join(" ");
  const slots = section.open.map(({ name }) => `<${name}>`).join("");
  const what = expected === "slot" ? `${slots}${opens ? "," : ""}` : expected;
  return `${cursor.block}: ${where} ${what} ${typed}`.replace("  ", " ");
}

function inPlan(block: string, line: string): string {
  return `isthmus 1\n\nplan "a" {\n  ${block} {\n${line}\n  }\n}\n`;
}

describe("at the start of a line", () => {
  test.each([
    ["$0", "file: []"],
    ["ist$0", "file: [ist]"],
    ["\ufeffist$0", "file: [ist]"],
    ["isthmus 1\n$0", "file: []"],
    ['plan "a" {\n$0\n}', "plan: []"],
    ['plan "a" {\r\n\t$0\r\n}', "plan: []"],
    ['plan "a" {\n  operation {\n    lo$0\n  }\n}', "operation: [lo]"],
    ['plan "a" {\n  operation {\n    lo$0ck D2\n  }\n}', "operation: [lo]"],
    ['plan "a" {\n  operation {\n    check ap\n    $0', "operation: []"],
    ['plan "a" {\n  case A {\n    side left\n  images {\n    $0\n  }\n}', "images: []"],
    ['plan "a" {\n  operation {\n    check ap\n  }\n  $0\n}', "plan: []"],
    ['catalogue "a" {\n  nail b {\n    $0\n  }\n}', "nail: []"],
  ])("%j", (source, expected) => expect(shown(source)).toBe(expected));
});

describe("in a statement", () => {
  test.each([
    ["images", "view $0", "images: view <name> []"],
    ["images", "view ap, $0", "images: view , []"],
    ["images", "view ap, ma$0", "images: view , [ma]"],
    ["images", "view ap, marker $0", "images: view marker <size> []"],
    ["images", "view ap, marker 25 $0", "images: view marker unit []"],
    ["images", "view ap, marker 25 m$0", "images: view marker unit [m]"],
    ["images", "view ap, marker 25 mm $0", "images: view marker []"],
    ["images", "view ap, marker 25 mm ± $0", "images: view marker nothing []"],
    ["images", "view ap, marker 25 mm ± 2 $0", "images: view marker unit []"],
    ["measures", "canal $0", "measures: canal <level> []"],
    ["measures", "canal at $0", "measures: canal <level> []"],
    ["measures", "canal at 3 mm on $0", "measures: canal view []"],
    ["measures", "canal at scar - $0", "measures: canal value []"],
    ["measures", "canal at (scar - $0", "measures: canal value []"],
    ["measures", "canal at min(scar, $0) - 2 mm", "measures: canal value []"],
    ["measures", "canal at 3 mm,\n      wi$0", "measures: canal , [wi]"],
    ["measures", "canal at 3 mm, # why\n      wi$0", "measures: canal , [wi]"],
    ["operation", "ream 8 mm to $0", "operation: ream value []"],
    ["operation", "ream 8 mm to 9 mm by $0", "operation: ream value []"],
    ["operation", "ream 8 mm, $0", "operation: ream <heads>, []"],
    ["operation", "lock D2, drilled 31 mm, screw $0", "operation: lock screw <family><length> []"],
    ["operation", "lock D2, drilled 31 mm, screw peg $0", "operation: lock screw <length> []"],
    ["operation", "lock D2 drilled $0", "operation: lock drilled <depth> []"],
    ["operation", "unreamed $0", "operation: unreamed , []"],
    ["case", "weight-bearing", "nowhere"],
  ])("%s { %s }", (block, line, expected) => {
    if (line.includes("$0")) expect(shown(inPlan(block, line))).toBe(expected);
    else expect(shown(inPlan(block, `${line} $0`))).toBe(expected);
  });

  test("a size or a code is typed as a whole", () => {
    expect(shown(inPlan("operation", "nail a, length 34$0"), "number")).toBe("operation: nail length <length> [34]");
    expect(shown(inPlan("case", "fracture 42A$0"), "number")).toBe("case: fracture <code> [42A]");
    expect(shown(inPlan("case", "fracture 42A2(b)$0"), "number")).toBe("case: fracture <code> [42A2(b)]");
    expect(shown(inPlan("operation", "lock D2$0"), "number")).toBe("nowhere");
  });

  test("the function round the cursor is known", () => {
    const cursor = at(inPlan("measures", "canal at round-down(min(3 mm, 2 mm), $0"));
    expect(cursor.kind === "inside" && cursor.call).toBe("round-down");
  });

  test("what follows on the line is known", () => {
    const followed = (line: string): boolean => {
      const cursor = at(inPlan("images", line));
      return cursor.kind !== "nowhere" && cursor.followed;
    };
    expect(followed("vi$0")).toBe(false);
    expect(followed("vi$0ew")).toBe(false);
    expect(followed("vi$0 # why")).toBe(false);
    expect(followed("vi$0 ap")).toBe(true);
    expect(followed("view ap, $0, seen 3 mm")).toBe(false);
  });
});

describe("nowhere", () => {
  test.each([
    ["# a $0"],
    ["## a $0"],
    ["isthmus 1 # a$0"],
    ['plan "a $0b" {\n}'],
    ['plan "a $0'],
    ['plan "a" {\n  summary """\n  a $0\n  """\n}'],
    ['plan "a" {\n  quux $0\n}'],
    ['plan "a" { $0\n}'],
    ['plan "a" {\n  quux {\n    a $0\n  }\n}'],
  ])("%j", (source) => expect(shown(source)).toBe("nowhere"));

  test("right before a text and right behind it is not in it", () => {
    expect(shown('plan "a" {\n  summary $0"a"\n}')).not.toBe("nowhere");
    expect(shown('plan "a" {\n  summary "a"$0\n}')).not.toBe("nowhere");
  });
});
