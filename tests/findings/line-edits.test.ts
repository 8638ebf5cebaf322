/** Lines put in, taken out and moved, with every line end, with notes and at the end of a file that has none. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import {
  insertAfter,
  insertBefore,
  moveAfter,
  moveBefore,
  takeOut,
  wholeLines,
} from "../../server/findings/line-edits.ts";

function spanOf(text: string, words: string): Span {
  const start = text.indexOf(words);
  if (start < 0) throw new Error(`no ${words} in the text`);
  return { start, end: start + words.length };
}

/** Each span against the text as it was, as an editor applies them. */
function applied(text: string, ...edits: readonly Edit[]): string {
  const sorted = edits.map((edit, order) => ({ edit, order }));
  sorted.sort((a, b) => b.edit.span.start - a.edit.span.start || b.order - a.order);
  return sorted.reduce((so, { edit }) => so.slice(0, edit.span.start) + edit.text + so.slice(edit.span.end), text);
}

describe.each([
  ["LF", "\n"],
  ["CRLF", "\r\n"],
])("with %s", (_, end) => {
  const text = ["top {", "  one", "  ## About two.", "  ## More.", "  two, and", "    more", "  three", "}", ""].join(
    end,
  );
  const two = spanOf(text, `two, and${end}    more`);

  test("a statement's lines hold its notes and its line end", () => {
    const { start, end: last } = wholeLines(text, two);
    expect(text.slice(start, last)).toBe(["  ## About two.", "  ## More.", "  two, and", "    more", ""].join(end));
  });

  test("a line goes in before the notes, or behind", () => {
    expect(applied(text, insertBefore(text, two, "new"))).toBe(text.replace("  ## About", `  new${end}  ## About`));
    expect(applied(text, insertAfter(text, two, "new"))).toBe(text.replace("  three", `  new${end}  three`));
  });

  test("a statement is taken out whole", () => {
    expect(applied(text, takeOut(text, two))).toBe(["top {", "  one", "  three", "}", ""].join(end));
  });

  test("a statement is moved with its notes", () => {
    const moved = [
      "top {",
      "  ## About two.",
      "  ## More.",
      "  two, and",
      "    more",
      "  one",
      "  three",
      "}",
      "",
    ].join(end);
    expect(applied(text, ...moveBefore(text, [two], spanOf(text, "one")))).toBe(moved);
    expect(applied(text, ...moveAfter(text, [spanOf(text, "one")], two))).toBe(moved);
  });

  test("several are moved in the order given", () => {
    const spans = [spanOf(text, "three"), spanOf(text, "one")];
    const behind = [
      "top {",
      "  ## About two.",
      "  ## More.",
      "  two, and",
      "    more",
      "  three",
      "  one",
      "}",
      "",
    ].join(end);
    expect(applied(text, ...moveAfter(text, spans, two))).toBe(behind);
  });
});

describe("at the end of a file without a line end", () => {
  const text = "one\ntwo";

  test("a line behind the last one gets a line of its own", () => {
    expect(applied(text, insertAfter(text, spanOf(text, "two"), "three"))).toBe("one\ntwo\nthree\n");
  });

  test("the last line is moved up, and the first behind it", () => {
    expect(applied(text, ...moveBefore(text, [spanOf(text, "two")], spanOf(text, "one")))).toBe("two\none\n");
    expect(applied(text, ...moveAfter(text, [spanOf(text, "one")], spanOf(text, "two")))).toBe("two\none\n");
  });
});

test("the first line of a file may have a note above it", () => {
  const text = "## About one.\none\ntwo\n";
  expect(wholeLines(text, spanOf(text, "one\n"))).toEqual({ start: 0, end: 22 });
  expect(applied(text, takeOut(text, { start: 14, end: 17 }))).toBe("two\n");
});

test("moving keeps every line", () => {
  const line = fc.stringMatching(/^[a-z]{1,6}$/);
  fc.assert(
    fc.property(
      fc.uniqueArray(line, { minLength: 2, maxLength: 8 }),
      fc.nat(),
      fc.nat(),
      fc.boolean(),
      (lines, a, b, behind) => {
        const text = `${lines.map((each) => `  ${each};`).join("\n")}\n`;
        const [from, to] = [lines[a % lines.length] ?? "", lines[b % lines.length] ?? ""];
        fc.pre(from !== to);
        const spans = [spanOf(text, ` ${from};`), spanOf(text, ` ${to};`)] as const;
        const edits = behind ? moveAfter(text, [spans[0]], spans[1]) : moveBefore(text, [spans[0]], spans[1]);
        const rest = lines.filter((each) => each !== from);
        rest.splice(rest.indexOf(to) + (behind ? 1 : 0), 0, from);
        expect(applied(text, ...edits)).toBe(`${rest.map((each) => `  ${each};`).join("\n")}\n`);
      },
    ),
    { numRuns: 300 },
  );
});
