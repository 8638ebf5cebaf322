/** What holds for every text, however little of it is written or however it is spoilt. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { overlay } from "../../server/meaning/overlay.ts";
import { understand } from "../../server/meaning/understand.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { catalogueText, library, meaningOf, planFile, planText, protocolText, understoodPlan } from "./texts.ts";

const texts = [planText, catalogueText, protocolText];

/** What is wrong with the understanding of a text; nothing, for any text. */
function broken(text: string): readonly string[] {
  const { document, problems, references } = understand(parse(text), planFile, library);
  const outside = problems.filter(({ span: { start, end } }) => start < 0 || end < start || end > text.length);
  const strange = references.uses.filter((use) => text.slice(use.span.start, use.span.end) !== use.name);
  const endless = quantitiesIn(document).filter(
    (quantity) => quantity.kind === "known" && !Number.isFinite(quantity.value),
  );
  if (document?.kind === "plan") {
    for (const fallback of document.fallbacks) {
      overlay(document, fallback);
    }
  }
  return [
    ...outside.map((problem) => `${problem.slug} stands outside the text`),
    ...strange.map((use) => `${use.name} is not what stands there`),
    ...endless.map(() => "a value is not finite"),
  ];
}

function holds(text: string): void {
  const wrong = broken(text);
  if (wrong.length > 0) {
    throw new Error(`${wrong.join("; ")} in:\n${text}`);
  }
}

function quantitiesIn(part: unknown): readonly Quantity[] {
  if (typeof part !== "object" || part === null) {
    return [];
  }
  if ("kind" in part && (part.kind === "known" || part.kind === "unknown")) {
    return [part as Quantity];
  }
  return Object.entries(part).flatMap(([key, inner]) => (key === "statement" ? [] : quantitiesIn(inner)));
}

describe("understanding", () => {
  test("holds for every prefix of a plan, a catalogue and a protocol", () => {
    for (const text of texts) {
      for (let end = 0; end <= text.length; end += 1) {
        holds(text.slice(0, end));
      }
    }
    expect(broken(planText)).toEqual([]);
  });

  test("holds when any line is taken out", () => {
    for (const text of texts) {
      const lines = text.split("\n");
      for (const at of lines.keys()) {
        holds([...lines.slice(0, at), ...lines.slice(at + 1)].join("\n"));
      }
      expect(lines.length).toBeGreaterThan(5);
    }
  });

  test("holds when words, numbers and signs are exchanged at will", () => {
    const words = planText.split(/(\s+)/);
    const spoilt = fc.array(fc.tuple(fc.nat(words.length - 1), fc.nat(words.length - 1)), {
      minLength: 1,
      maxLength: 8,
    });
    fc.assert(
      fc.property(spoilt, (swaps) => {
        const changed = [...words];
        for (const [at, from] of swaps) {
          changed[at] = words[from] ?? "";
        }
        holds(changed.join(""));
      }),
      { numRuns: 150 },
    );
  });

  test("one misspelt word of a statement leaves every other statement its value", () => {
    const values = (text: string) => understoodPlan(text).measures.landmarks.length + understoodPlan(text).steps.length;
    const whole = values(planText);
    for (const word of planText.match(/^ {4}[a-z-]+/gm) ?? []) {
      expect(values(planText.replace(word, `${word}qqqq`)), word).toBeGreaterThanOrEqual(whole - 1);
    }
  });

  test("is the same each time", () => {
    expect(meaningOf(planText)).toEqual(meaningOf(planText));
  });
});
