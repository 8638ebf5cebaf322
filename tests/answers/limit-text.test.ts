/** A limit in words: its value, whoever set it, what that overrides, and what it rests on. */
import { describe, expect, test } from "vitest";
import { limitMarkdown, protocolsOf } from "../../server/answers/limit-text.ts";
import type { Protocol } from "../../server/meaning/plan.ts";
import { analyseText, sampleText } from "../check.ts";

function protocol(name: string, limit: string): Protocol {
  const text = `isthmus 1\n\nprotocol "${name}" {\n  ${limit}\n}\n`;
  const { document } = analyseText(text, `${name}.isthmus`).meaning;
  if (document?.kind !== "protocol") throw new Error("no protocol");
  return document;
}

describe("a limit in force", () => {
  test("by default", () => {
    expect(limitMarkdown("coronal", [])).toBe(
      "**Limit `coronal`**, varus or valgus: up to 5 deg\n\n" +
        "Basis: Freedman & Johnson, Clin Orthop 1995;315:25: malaligned from 5 deg in any plane (printed).\n\n" +
        "Measured on: 133 tibial shaft fractures after nailing.",
    );
  });

  test("set by one protocol with its reason", () => {
    expect(limitMarkdown("coronal", [protocol("One", 'limit coronal up-to 3 deg, because "we are strict"')])).toContain(
      'up to 3 deg\n\nSet by the protocol "One", because "we are strict". It overrides the default: up to 5 deg.',
    );
  });

  test("set by the last of several, and all that it overrides", () => {
    const all = [protocol("One", "limit coronal up-to 3 deg"), protocol("Two", "limit coronal 1 deg to 4 deg")];
    expect(limitMarkdown("coronal", all)).toContain(
      '1 deg to 4 deg\n\nSet by the protocol "Two". It overrides the protocol "One": up to 3 deg; the default: up to 5 deg.',
    );
    expect(limitMarkdown("coronal", all.toReversed())).toContain(
      'Set by the protocol "One". It overrides the protocol "Two"',
    );
  });

  test("with its source", () => {
    const sourced = protocol("One", 'limit coronal up-to 3 deg, source "an invented source"');
    expect(limitMarkdown("coronal", [sourced])).toContain("source: an invented source");
  });

  test("that cannot be used says so", () => {
    expect(limitMarkdown("coronal", [protocol("One", "limit coronal up-to 3 mm")])).toContain(
      "cannot be used: limit coronal is an angle, not a length",
    );
  });

  test("without a number of its own, and with its remark", () => {
    expect(limitMarkdown("compression", [])).toMatch(/no fixed value[\s\S]*By default the catalogue's travel/);
  });

  test("of no such name is nothing", () => {
    expect(limitMarkdown("coronl", [])).toBeUndefined();
    expect(limitMarkdown("__proto__", [])).toBeUndefined();
  });
});

test("the protocols of a document: those a plan follows, or itself", () => {
  const titles = (text: string): string[] =>
    protocolsOf(analyseText(text).meaning.document).map(({ title }) => title.text);
  const ellerby = "Ellerby, an invented teaching department";
  expect(titles(sampleText("plans/simple-shaft.isthmus"))).toEqual([ellerby]);
  expect(titles(sampleText("protocol/ellerby.isthmus"))).toEqual([ellerby]);
  expect(titles(sampleText("catalogue/tarnbeck.isthmus"))).toEqual([]);
  expect(titles("")).toEqual([]);
});
