/** The seal of a plan: what keeps it, what changes it, and that anybody can make it again. */
import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { sealedText, sealFits, sealOf } from "../../grammar/seal.ts";

const plan = `isthmus 1

plan "An invented plan" {
  status for-review
  summary """
    First line.


    Second line.
    """

  ## A note.
  case TN-1 {
    side left # as on the images
  }
}
`;

const seal = sealOf(plan);
const line = `  reviewed "the senior registrar", dated 2026-03-02, seal "${seal ?? ""}"\n`;

function withLine(text: string): string {
  return plan.replace("  status for-review\n", `  status for-review\n${text}`);
}

test("is the beginning of the digest of the laid out text, so that anybody can make it again", () => {
  const text = sealedText(plan) ?? "";
  expect(seal).toMatch(/^[0-9a-f]{16}$/);
  expect(createHash("sha256").update(text).digest("hex").slice(0, 16)).toBe(seal);
  expect(text).toContain("\n\n\n    Second line.");
  expect(text.replace("\n\n\n    Second line.", "")).not.toContain("\n\n");
});

describe("is kept by", () => {
  test.each([
    ["a reviewed line", withLine(line)],
    [
      "a reviewed line set apart, with its note and a comment behind it",
      withLine(`\n  ## Seen.\n${line.trimEnd()} # done\n\n`),
    ],
    ["several reviewed lines", withLine(line + line)],
    ["a reviewed line at the end", plan.replace(/\}\n$/, `${line}}\n`)],
    ["blanks", plan.replace("  case TN-1", "      case   TN-1").replace("    side left #", "\tside   left     #")],
    ["blank lines", plan.replace("  status for-review\n\n", "  status for-review\n").replace("  case", "\n\n  case")],
    ["line ends", plan.replaceAll("\n", "\r\n")],
    ["a byte-order mark", `\ufeff${plan}`],
  ])("%s", (_, text) => {
    expect(text).not.toBe(plan);
    expect(sealOf(text)).toBe(seal);
  });
});

describe("is changed by", () => {
  test.each([
    ["a word", plan.replace("side left", "side right")],
    ["a note", plan.replace("A note.", "Another note.")],
    ["a comment", plan.replace("as on the images", "as seen")],
    ["a blank line inside a text in quotes", plan.replace("First line.\n\n\n", "First line.\n\n")],
    ["a line that only looks like a review", plan.replace("side left", 'reviewed "x"\n    side left')],
    [
      "the order of two lines",
      plan.replace("  status for-review\n", "").replace("  ## A note.", "  status for-review\n  ## A note."),
    ],
  ])("%s", (_, text) => {
    expect(text).not.toBe(plan);
    expect(sealOf(text)).toMatch(/^[0-9a-f]{16}$/);
    expect(sealOf(text)).not.toBe(seal);
  });
});

test("a text that is broken has none", () => {
  expect(sealOf(plan.replace("side left", "side ) left"))).toBeUndefined();
  expect(sealFits("0123456789abcdef", plan.replace("side left", "side ) left"))).toBeUndefined();
});

test("fits with its 16 digits or more of them, in either case of letters", () => {
  const whole = createHash("sha256")
    .update(sealedText(plan) ?? "")
    .digest("hex");
  const own = seal ?? "";
  expect([own, whole, own.toUpperCase()].map((each) => sealFits(each, plan))).toEqual([true, true, true]);
  expect([own.slice(0, 15), "", `${whole}0`, `${own.slice(1)}0`].map((each) => sealFits(each, plan))).toEqual([
    false,
    false,
    false,
    false,
  ]);
});
