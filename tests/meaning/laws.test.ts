/** What holds for every text, however little of it is written or however it is spoilt. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import type { Span } from "../../grammar/tree.ts";
import {
  exampleCatalogue as catalogueText,
  examplePlan as planText,
  exampleProtocol as protocolText,
} from "../../server/findings/example.ts";
import { overlay } from "../../server/meaning/overlay.ts";
import type { Typed } from "../../server/meaning/plan.ts";
import { understand } from "../../server/meaning/understand.ts";
import type { Quantity } from "../../server/quantity/quantity.ts";
import { library, meaningOf, planFile } from "./texts.ts";

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

/** What every typed value outside one line is worth, in the order of the document. */
function valuesOutside(text: string, start: number, end: number): readonly string[] {
  const { document } = meaningOf(text);
  const own = (span: Span) => span.start >= start && span.start < end;
  return typedIn(document).flatMap(({ quantity, place }) =>
    own(place.span) || place.file !== planFile ? [] : [quantity.kind === "known" ? `${quantity.value}` : "unknown"],
  );
}

function typedIn(part: unknown): readonly Typed[] {
  if (typeof part !== "object" || part === null) {
    return [];
  }
  if ("quantity" in part && "place" in part) {
    return [part as Typed];
  }
  return Object.entries(part).flatMap(([key, inner]) => (key === "statement" ? [] : typedIn(inner)));
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

/* Thousands of texts each: far from it when idle, but the machine may be busy. */
describe("understanding", { timeout: 180_000 }, () => {
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

  test.each(texts.map((text) => [text.split("\n")[2] ?? "", text]))(
    "a half typed word costs its own line alone: %s",
    (_, text) => {
      const lost: string[] = [];
      for (const { 0: line, index } of text.matchAll(/^ *([a-z][a-z-]*)(?=[ \n]).*$/gm)) {
        const [word = ""] = line.trim().split(" ");
        const start = index + line.indexOf(word);
        const others = valuesOutside(text, index, index + line.length);
        for (let typed = 1; typed < word.length; typed += 1) {
          const half = text.slice(0, start + typed) + text.slice(start + word.length);
          const kept = valuesOutside(half, index, index + line.length - (word.length - typed));
          if (kept.join() !== others.join()) {
            lost.push(`${word.slice(0, typed)}|${word.slice(typed)}`);
          }
        }
      }
      expect(lost).toEqual([]);
    },
  );

  test("is the same each time", () => {
    expect(meaningOf(planText)).toEqual(meaningOf(planText));
  });
});
