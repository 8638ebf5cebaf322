/**
 * Holds the vocabulary's tables to their own rules: documented, spelt as words, free of units and operators, whole. Whether lines
 * are read by them is tested in `shape.test.ts`.
 */
import { describe, expect, test } from "vitest";
import { blockRules, blocksWith, outermostBlock, rulesOf, statementRule } from "../../grammar/vocabulary/blocks.ts";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import type { Part, Slot, StatementRule } from "../../grammar/vocabulary/rule.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";

/** The statements of each block, as the language's reference lists them. */
const reference: Readonly<Record<string, string>> = {
  file: "isthmus plan catalogue protocol",
  plan: "use follow sources status summary waive reviewed case images measures operation fallback achieved aftercare removal",
  case: "side bone age weight knee-flexion growth-plates bone-quality soft-tissue fracture alignment concern",
  images: "view",
  measures: "landmark canal bone epiphysis nail-length",
  operation: "prepare position reduce enter wire ream unreamed nail block lock compress backslap cap check step",
  fallback: "prepare position reduce enter wire ream unreamed nail block lock compress backslap cap check step",
  achieved:
    "prepare position reduce enter wire ream unreamed nail block lock compress backslap cap check step alignment",
  aftercare: "weight-bearing watch review dynamise advise",
  removal: "take attach withdraw step",
  catalogue: "notice nail screws reamers",
  nail: "for material modulus diameters lengths bore driving-end bend hole compression caps fits",
  screws: "thread core drill lengths with",
  reamers: "heads front-cutting",
  protocol: "profile limit grade never-waive demand",
  ask: "answer",
};

const once: Readonly<Record<string, string>> = {
  file: "isthmus",
  plan: "case measures operation",
  case: "side bone fracture",
  operation: "nail",
  catalogue: "notice",
  nail: "for diameters lengths",
  screws: "thread core drill lengths",
  reamers: "heads",
};

const wordPattern = /^[A-Za-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*$/;
const statements: readonly (readonly [string, StatementRule])[] = [...blockRules.values()].flatMap((block) =>
  block.statements.map((rule): readonly [string, StatementRule] => [`${rule.word} in ${block.name}`, rule]),
);

function slotsOf(rule: StatementRule): readonly Slot[] {
  return [...rule.slots, ...rule.clauses.flatMap((clause) => clause.slots)];
}

function choicesOf(part: Part): readonly (readonly [string, string])[] {
  if (part.kind === "either") return part.parts.flatMap(choicesOf);
  if (part.kind === "declares") return Object.entries(part.known ?? {});
  return part.kind === "choice" ? Object.entries(part.words) : [];
}

function docsOf(rule: StatementRule): readonly string[] {
  return [
    rule.doc,
    ...rule.clauses.map((clause) => clause.doc),
    ...slotsOf(rule).map((slot) => slot.doc),
    ...slotsOf(rule).flatMap((slot) => choicesOf(slot.part).map(([, doc]) => doc)),
  ];
}

function wordsOf(rule: StatementRule): readonly string[] {
  return [
    rule.word,
    ...rule.clauses.map((clause) => clause.word),
    ...slotsOf(rule).flatMap((slot) => (slot.lead === undefined || slot.lead === "=" ? [] : [slot.lead])),
    ...slotsOf(rule).flatMap((slot) => choicesOf(slot.part).map(([word]) => word)),
  ];
}

describe("the tables as the reference has them", () => {
  test.each(Object.entries(reference))("block %s holds its statements", (block, words) => {
    const shared = block === outermostBlock ? [] : block === "ask" ? ["let"] : ["let", "ask"];
    expect([...rulesOf(block).keys()].sort()).toEqual([...words.split(" "), ...shared].sort());
  });

  test("there is no other block", () => {
    expect([...blockRules.keys()].sort()).toEqual(Object.keys(reference).sort());
  });

  test.each([...blockRules.keys()])("block %s requires what the reference requires", (block) => {
    const required = [...rulesOf(block).values()].filter((rule) => rule.times === "one").map((rule) => rule.word);
    expect(required.join(" ")).toBe(once[block] ?? "");
  });

  test("the functions are those of the reference", () => {
    const words = "min max mean abs sqrt hypot sin cos tan atan2 round-up round-down";
    expect([...functionWords.keys()].join(" ")).toBe(words);
  });
});

describe.each(statements)("%s", (_, rule) => {
  test("every doc is a sentence on one line", () => {
    for (const doc of docsOf(rule)) expect(doc).toMatch(/^[A-Z][^\n]*\.$/);
  });

  test("every word is a word, and neither an operator nor a unit", () => {
    for (const word of wordsOf(rule)) {
      expect(word).toMatch(wordPattern);
      expect(["to", "by", "on"]).not.toContain(word);
      expect(unitWords.has(word), word).toBe(false);
    }
  });

  test("clause words and slot names are each used once", () => {
    const lists = [rule.clauses.map((clause) => clause.word), rule.slots.map((slot) => slot.name)];
    lists.push(...rule.clauses.map((clause) => clause.slots.map((slot) => slot.name)));
    for (const list of lists) expect(new Set(list).size, list.join(" ")).toBe(list.length);
  });

  test("the example is a line of this statement", () => {
    expect(rule.example).toMatch(new RegExp(`^${rule.word}(?![A-Za-z0-9-])[^\n]*$`));
    expect(rule.example.endsWith("{")).toBe(rule.block !== undefined);
  });

  test("the block it opens exists", () => {
    expect(rule.block === undefined || blockRules.has(rule.block)).toBe(true);
  });

  test("its alternatives name slots and clauses of its own", () => {
    const own = [...rule.slots.map((slot) => slot.name), ...rule.clauses.map((clause) => clause.word)];
    for (const part of rule.alternatives?.ways.flat() ?? []) expect(own).toContain(part);
  });

  test("a slot that depends on a word depends on a choice before it", () => {
    for (const slots of [rule.slots, ...rule.clauses.map((clause) => clause.slots)]) {
      for (const [index, slot] of slots.entries()) {
        const before = slots.slice(0, index).flatMap((earlier) => choicesOf(earlier.part).map(([word]) => word));
        for (const word of slot.after ?? []) expect(before).toContain(word);
      }
    }
  });
});

describe("blocks", () => {
  test.each([...blockRules.values()])("$name is documented", (block) => {
    expect(block.doc).toMatch(/^[A-Z][^\n]*\.$/);
    const words = block.statements.map((rule) => rule.word);
    expect(new Set(words).size).toBe(words.length);
    for (const part of block.alternatives?.ways.flat() ?? []) expect(words).toContain(part);
  });

  test("every block but the file is opened by some statement", () => {
    const opened = new Set(statements.flatMap(([, rule]) => (rule.block === undefined ? [] : [rule.block])));
    expect([...blockRules.keys()].filter((name) => name !== outermostBlock && !opened.has(name))).toEqual([]);
  });

  test("a word is found in every block that has it, and nowhere else", () => {
    expect(blocksWith("nail")).toEqual(["operation", "fallback", "achieved", "catalogue"]);
    expect(blocksWith("constructor")).toEqual([]);
    expect(statementRule("case", "side")?.times).toBe("one");
    expect(statementRule("case", "__proto__")).toBeUndefined();
    expect(rulesOf("constructor").size).toBe(0);
  });
});

describe.each([...functionWords.values()])("function $word", (rule) => {
  test("is documented with a signature and an example of its own", () => {
    expect(rule.word).toMatch(wordPattern);
    for (const doc of [rule.doc, ...rule.parameters.map((parameter) => parameter.doc)]) {
      expect(doc).toMatch(/^[A-Z][^\n]*\.$/);
    }
    expect(rule.example.startsWith(`${rule.word}(`)).toBe(true);
    for (const { name } of rule.parameters) expect(rule.signature).toContain(name);
    expect(rule.signature.includes("…")).toBe(rule.goesOn);
  });
});
