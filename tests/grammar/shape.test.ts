/**
 * Lines read against the vocabulary: what is right is read without a word and into the right slots; one mistake anywhere makes one
 * problem; long texts stay quick. Each kind of mistake is in `shape-problems.test.ts`.
 */
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { shape } from "../../grammar/shape.ts";
import { placeAt } from "../../grammar/shape-place.ts";
import { blockRules, rulesOf, statementRule } from "../../grammar/vocabulary/blocks.ts";
import {
  exampleCatalogue as catalogue,
  examplePlan as plan,
  exampleProtocol as protocol,
} from "../../server/findings/example.ts";
import { readMarked } from "../markers.ts";
import { check, checkIn, lastStatement, problemsOf, read, said, within } from "./lines.ts";

describe("what is right", () => {
  test.each([
    ["plan", plan],
    ["catalogue", catalogue],
    ["protocol", protocol],
  ])("the whole %s has no problem", (_, text) => {
    check(text);
  });

  const examples = [...blockRules.values()].flatMap((block) =>
    block.statements.map((rule): readonly [string, string, string] => [block.name, rule.word, rule.example]),
  );

  test.each(examples)("in %s the example of %s", (block, word, example) => {
    const lines = example.endsWith("{") ? `${example}\n}` : example;
    const { text, start } = block === "file" ? exampleOfFile(word, lines) : within(block, lines);
    const opened = word === "isthmus" ? "file" : (statementRule(block, word)?.block ?? "");
    const inLine = problemsOf(text).filter(({ slug, span, expected }) => {
      const lacksStatements = slug === "missing" && expected?.every((one) => rulesOf(opened).has(one));
      return span.start >= start && span.start <= start + lines.length && !lacksStatements;
    });
    expect(inLine).toEqual([]);
    const statement = lastStatement(read(text));
    expect(statement?.rule?.word).toBe(word);
    for (const slot of statement?.rule?.slots ?? []) {
      if (slot.times !== "optional" && slot.after === undefined) expect(statement?.slots.has(slot.name)).toBe(true);
    }
  });

  function exampleOfFile(word: string, lines: string): { readonly text: string; readonly start: number } {
    return word === "isthmus" ? { text: lines, start: 0 } : { text: `isthmus 1\n${lines}`, start: 10 };
  }

  test.each([
    ["plan", 'waive drill-odd, because "Measured twice.", signed "A"'],
    ["case", "soft-tissue open IIIB"],
    ["case", "fracture 42A2, from 208 mm to 232 mm, contact 50 %"],
    ["case", "alignment long 3 mm"],
    ["case", 'concern "Lives alone."'],
    ["images", "view ct, true-size"],
    ["measures", "landmark joint plafond - 45 mm"],
    ["measures", "canal at joint - 5 mm, depth 12 mm"],
    ["measures", "let far = min(scar, plafond - 15 mm)"],
    ["measures", "landmark scar -2 mm"],
    ["operation", "ream 8.5 mm, 9 mm, 9.5 mm"],
    ["operation", "ream 8 mm, 8.5 mm to 11 mm by 0.5 mm"],
    ["operation", "unreamed"],
    ["operation", "position lateral"],
    ["operation", "position supine, support knee, knee 90 deg"],
    ["operation", 'reduce open, using clamp, traction, "a towel", hold joystick'],
    ["operation", "lock D1, drilled 33 mm, screw peg 34 mm, grip near"],
    ["operation", "lock D1, drilled depth + 1 mm, screw peg (depth + 2 mm)"],
    ["operation", "compress 2 mm"],
    ["operation", "cap none"],
    ["operation", "cap extension"],
    ["operation", "block at 330 mm, side medial"],
    ["operation", "nail fenwick,\n  diameter 10 mm,\n  length 345 mm, sunk 8 mm"],
    ["aftercare", "weight-bearing none"],
    ["aftercare", "weight-bearing tolerated, until 12 weeks"],
    ["aftercare", "weight-bearing partial 50 %, until 3 months"],
    ["aftercare", "weight-bearing partial 200 N"],
    ["aftercare", "dynamise at 10 weeks, remove P1, P2"],
    ["nail", "hole P3, top 50 mm, runs oblique 45 deg, tilt 10 deg, takes bolt, spongy"],
    ["nail", "hole tip, tip 5 mm, runs anterior-posterior, takes bolt spongy"],
    ["nail", 'material "an alloy"'],
    ["protocol", "limit fit-ratio 0.8 to 0.99"],
    ["protocol", 'limit screws-per-fragment at-least 2, source "our habit"'],
    ["protocol", "limit gap-strain up-to 10 %"],
    ["protocol", "limit dynamise-from at-least 6 weeks"],
    ["protocol", "limit compartment-gradient at-least 30 mmHg"],
    ["protocol", "demand step"],
    ["ask", 'answer "The near end"'],
  ])("in %s: %s", (block, line) => {
    checkIn(block, line);
  });
});

describe("what stands in the slots", () => {
  function slotsOf(block: string, line: string): Readonly<Record<string, readonly string[]>> {
    const statement = lastStatement(read(within(block, line).text));
    const sections = [{ name: "", slots: statement?.slots }].concat(
      (statement?.clauses ?? []).map(({ word, slots }) => ({ name: `${word.name} `, slots })),
    );
    return Object.fromEntries(
      sections.flatMap(({ name, slots }) =>
        [...(slots ?? [])].map(([slot, items]) => [
          name + slot,
          items.map(({ span }) => within(block, line).text.slice(span.start, span.end)),
        ]),
      ),
    );
  }

  test("a list goes on across commas and spaces until a clause word", () => {
    expect(slotsOf("nail", "hole P1, takes bolt, spongy peg, top 5 mm, runs oblique 45 deg")).toEqual({
      name: ["P1"],
      "takes families": ["bolt", "spongy", "peg"],
      "top distance": ["5 mm"],
      "runs direction": ["oblique"],
      "runs angle": ["45 deg"],
    });
  });

  test("the family of a screw may be left out", () => {
    expect(slotsOf("operation", "lock D1, drilled 33 mm, screw 34 mm")).toMatchObject({ "screw length": ["34 mm"] });
    expect(slotsOf("operation", "lock D1, drilled 33 mm, screw peg 34 mm")).toMatchObject({
      "screw family": ["peg"],
      "screw length": ["34 mm"],
    });
  });

  test("lead words are not part of what they lead to", () => {
    expect(slotsOf("aftercare", "review at 2 weeks, 6 weeks")).toEqual({ times: ["2 weeks", "6 weeks"] });
    expect(slotsOf("plan", 'waive drill-odd at D2, because "b", signed "c"')).toMatchObject({ at: ["D2"] });
    expect(slotsOf("protocol", "limit sagittal up-to 10 deg")).toEqual({ name: ["sagittal"], most: ["10 deg"] });
  });

  test("a choice may be spelt like a clause", () => {
    expect(slotsOf("operation", "position supine, support knee, knee 90 deg")).toEqual({
      posture: ["supine"],
      "support support": ["knee"],
      "knee angle": ["90 deg"],
    });
  });

  test("what is wrong stays out, what is right beside it stays in", () => {
    expect(slotsOf("operation", "lock D1, drilled 33 deg, screw 34 mm")).toEqual({
      hole: ["D1"],
      "screw length": ["34 mm"],
    });
    expect(slotsOf("operation", "check ap, latral, rotation")).toEqual({ things: ["ap", "rotation"] });
  });

  test("names of built-in properties are ordinary names", () => {
    const line = "hole constructor, top 5 mm, runs medial-lateral, takes toString, valueOf";
    expect(slotsOf("nail", line)).toMatchObject({ name: ["constructor"], "takes families": ["toString", "valueOf"] });
    check(plan.replace("case TN-0417", "case constructor"));
    check(plan.replace("case TN-0417", 'case "__proto__"'));
  });
});

describe("one mistake, one problem", () => {
  const documents: readonly (readonly [string, string])[] = [
    ["plan", plan],
    ["catalogue", catalogue],
    ["protocol", protocol],
  ];

  /** Every word outside texts and notes. */
  function wordsOf(text: string): readonly { readonly word: string; readonly start: number }[] {
    const clean = text.replace(/"[^"]*"|##.*/g, (quiet) => " ".repeat(quiet.length));
    return [...clean.matchAll(/[A-Za-z][A-Za-z0-9-]*/g)].map(({ 0: word, index }) => ({ word, start: index }));
  }

  /** A changed list or name may still be right; what is wrong is told once. */
  function tellsOnce(text: string, change: string): void {
    const told = problemsOf(text).map(said);
    expect(told.length > 1 ? [change, ...told] : []).toEqual([]);
  }

  test.each(documents)("any word of the %s misspelt", (_, text) => {
    for (const { word, start } of wordsOf(text)) {
      tellsOnce(`${text.slice(0, start)}${word[0]}${text.slice(start)}`, `${word} at ${start}`);
    }
  });

  test.each(documents)("any word of the %s left out", (_, text) => {
    for (const { word, start } of wordsOf(text)) {
      tellsOnce(text.slice(0, start) + text.slice(start + word.length), `${word} at ${start}`);
    }
  });

  test.each(documents)("any comma of the %s left out", (_, text) => {
    for (const { index } of text.matchAll(/,/g)) tellsOnce(text.slice(0, index) + text.slice(index + 1), `at ${index}`);
  });

  test.each(documents)("any opening brace of the %s left out", (_, text) => {
    for (const { index } of text.matchAll(/ \{/g))
      tellsOnce(text.slice(0, index) + text.slice(index + 2), `at ${index}`);
  });

  test.each(documents)("any part of the %s from its beginning is read to its end", (_, text) => {
    for (let end = 0; end <= text.length; end += 1) {
      for (const { span } of read(text.slice(0, end)).problems) {
        expect(0 <= span.start && span.start <= span.end && span.end <= end).toBe(true);
      }
    }
  });
});

describe("very long texts", () => {
  test.each([
    ["many unknown statements", "lokk D2, drilld 3 mm\n".repeat(5000)],
    ["a long list", `check ${"latral, ".repeat(20_000)}ap`],
    ["many things too much", `nail fenwick, ${"5 mm, ".repeat(20_000)}diameter 10 mm`],
    ["one clause over and over", `nail fenwick, ${"diameter 9 mm, ".repeat(20_000)}length 345 mm`],
    ["many clauses without a comma", `nail fenwick ${"diameter 9 mm ".repeat(20_000)}`],
  ])("%s: time stays in proportion", (_, lines) => {
    const { tree } = parse(within("operation", lines).text);
    const before = performance.now();
    const { problems } = shape(tree);
    // Wide, since the machine may be busy: in proportion it takes a second, with the square of the length it takes minutes.
    expect(performance.now() - before).toBeLessThan(10_000);
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.length).toBeLessThanOrEqual(200);
  });
});

describe("places", () => {
  function at(text: string, cursor: number): string {
    const { path, clause, slot, item } = placeAt(read(text), cursor);
    const parts = [
      path.map(({ statement }) => statement.word.name).join(" > "),
      clause?.word.name,
      slot?.name,
      item?.kind,
    ];
    return parts.map((part) => part ?? "-").join(" / ");
  }

  test.each([
    ["operation", "lock D$02, drilled 31 mm, screw 32 mm", "plan > operation > lock / - / hole / word"],
    ["operation", "lock D2, drilled 31$0 mm, screw 32 mm", "plan > operation > lock / drilled / depth / quantity"],
    ["operation", "lock D2, dri$0lled 31 mm, screw 32 mm", "plan > operation > lock / drilled / - / -"],
    ["operation", "lo$0ck D2", "plan > operation > lock / - / - / -"],
  ])("in %s: %s", (block, line, place) => {
    const { text, cursor } = readMarked(within(block, line).text);
    expect(at(text, cursor ?? 0)).toBe(place);
  });
});
