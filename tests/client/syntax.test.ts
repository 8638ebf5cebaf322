/**
 * Holds the editor's syntax files to the vocabulary and the lexer: the files are what the generator makes, every word of the tables
 * is coloured where it stands, and in the samples every token has the colour of its kind.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { syntaxFiles } from "../../.build/make-syntax.ts";
import { parse } from "../../grammar/parse.ts";
import { shape } from "../../grammar/shape.ts";
import type { ShapedStatement } from "../../grammar/shaped.ts";
import { type LexKind, lex } from "../../grammar/tokens.ts";
import { blockRules } from "../../grammar/vocabulary/blocks.ts";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import type { Part } from "../../grammar/vocabulary/rule.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";
import { colour, type Piece, scopesAt } from "./colours.ts";

const statement = /^keyword\.(control|other\.statement)\.isthmus$/;
const clause = "entity.other.attribute-name.isthmus";
const choice = "variable.other.enummember.isthmus";

const root = new URL("../../", import.meta.url);

const samples = readdirSync(new URL("samples", root), { recursive: true, encoding: "utf8" })
  .filter((path) => path.endsWith(".isthmus"))
  .sort();

test("there are samples to look at", () => expect(samples.length).toBeGreaterThan(4));

test.each([...syntaxFiles()])("grammar/%s is what the tables make; `npm run syntax` writes it", (name, text) => {
  expect(readFileSync(new URL(`grammar/${name}`, root), "utf8")).toBe(text);
});

const rules = [...blockRules.values()].flatMap((block) =>
  block.statements.map((rule) => ({ title: `${block.name}: ${rule.word}`, rule })),
);

describe.each(rules)("$title", ({ rule }) => {
  test("begins a line in its colour, and only there", async () => {
    const line = `  ${rule.example}`;
    expect(scopesAt(await colour(line), 2)).toMatch(statement);
    expect(scopesAt(await colour(`step ${rule.word}`), 5)).not.toMatch(statement);
  });

  test.each(rule.clauses.map((each) => each.word))("its clause %s", async (word) => {
    for (const before of [
      `${rule.word} `,
      `${rule.word} 1 mm, `,
      `${rule.word} "a",\n    `,
      `${rule.word} "a", # why\n    `,
    ]) {
      expect(scopesAt(await colour(`${before}${word} 3 mm`), before.length)).toBe(clause);
    }
    const inside = `${rule.word} 1 mm ${word}-like`;
    expect(scopesAt(await colour(inside), inside.indexOf(word, rule.word.length + 5))).not.toBe(clause);
  });

  const slots = [...rule.slots, ...rule.clauses.flatMap((each) => each.slots)];
  const leads = slots.flatMap((slot) => (slot.lead === undefined || slot.lead === "=" ? [] : [slot.lead]));
  test.each(leads)("its word %s before a value", async (word) => {
    const before = `${rule.word} name `;
    expect(scopesAt(await colour(`${before}${word} 3 mm`), before.length)).toBe(clause);
  });

  const choices = slots.flatMap((slot) => words(slot.part));
  test.each(choices)("its word %s to choose", async (word) => {
    for (const before of [`${rule.word} name `, `${rule.word} 1 mm, other `]) {
      expect(scopesAt(await colour(`${before}${word}, more`), before.length)).toBe(choice);
    }
  });
});

function words(part: Part): readonly string[] {
  if (part.kind === "either") return part.parts.flatMap(words);
  return part.kind === "choice" ? Object.keys(part.words) : [];
}

test.each([...unitWords.keys()])("the unit %s, with and without a space", async (unit) => {
  for (const written of [`12.5 ${unit}`, `12.5${unit}`, `-12.5 ${unit} ± 1 ${unit}`]) {
    const line = `let a = ${written}`;
    const pieces = await colour(line);
    expect(scopesAt(pieces, line.indexOf("12.5"))).toBe("constant.numeric.isthmus");
    expect(scopesAt(pieces, line.lastIndexOf(unit))).toBe("keyword.other.unit.isthmus");
  }
});

test.each([...functionWords.keys()])("the function %s, only where it is called", async (word) => {
  const line = `let a = ${word}(3 mm, b) + ${word}`;
  const pieces = await colour(line);
  expect(scopesAt(pieces, 8)).toBe("support.function.isthmus");
  expect(scopesAt(pieces, line.lastIndexOf(word))).toBe("variable.other.isthmus");
});

/** The innermost scope each kind of token has; words are looked at one by one. */
const scopeOfKind: Readonly<Record<Exclude<LexKind, "word" | "newline">, RegExp>> = {
  unit: /^keyword\.other\.unit\.isthmus$/,
  "operator-word": /^keyword\.operator\.word\.isthmus$/,
  number: /^constant\.numeric\.isthmus$/,
  text: /^string\.quoted\.(double|triple)\.isthmus punctuation\.definition\.string\.begin\.isthmus$/,
  code: /^constant\.other\.fracture-code\.isthmus$/,
  date: /^constant\.other\.date\.isthmus$/,
  operator: /^keyword\.operator\.(arithmetic|assignment|plus-minus)\.isthmus$/,
  punctuation: /^punctuation\./,
  comment: /^comment\.line\./,
  note: /^comment\.block\.documentation\./,
  odd: /^invalid\.illegal\./,
};

describe.each(samples)("samples/%s", (path) => {
  const text = readFileSync(new URL(`samples/${path}`, root), "utf8");

  test("every token has the colour of its kind", async () => {
    const pieces = await colour(text);
    for (const { kind, span, text: written } of lex(text)) {
      if (kind === "newline") continue;
      const scopes = scopesAt(pieces, span.start);
      if (kind === "word") expect(scopes, written).not.toBe("");
      else expect(scopes, `${kind} ${written}`).toMatch(scopeOfKind[kind]);
    }
  });

  test("every statement and clause word has its colour", async () => {
    const pieces = await colour(text);
    const seen = checkWords(pieces, shape(parse(text).tree).statements);
    expect(seen).toBeGreaterThan(5);
  });
});

/** Checks the words of the statements and of those inside them; gives their number. */
function checkWords(pieces: readonly Piece[], statements: readonly ShapedStatement[]): number {
  let seen = 0;
  for (const { statement: written, rule, clauses, children } of statements) {
    expect(rule, `${written.word.name} is known`).toBeDefined();
    expect(scopesAt(pieces, written.word.span.start), written.word.name).toMatch(statement);
    for (const each of clauses) expect(scopesAt(pieces, each.word.span.start), each.word.name).toBe(clause);
    seen += 1 + clauses.length + checkWords(pieces, children);
  }
  return seen;
}

describe("as it is typed", () => {
  test("a text without its end goes no further than its line", async () => {
    const text = 'step "half\nream 8 mm';
    expect(scopesAt(await colour(text), text.indexOf("ream"))).toMatch(statement);
  });

  test("a block of text goes on over lines and hides nothing after it", async () => {
    const text = 'summary """\nream 8 mm # no\n"""\nstatus draft';
    const pieces = await colour(text);
    expect(scopesAt(pieces, text.indexOf("ream"))).toBe("string.quoted.triple.isthmus");
    expect(scopesAt(pieces, text.indexOf("status"))).toMatch(statement);
  });

  test("a sign of comment inside a text begins none", async () => {
    const text = 'step "a # b" # c';
    const pieces = await colour(text);
    expect(scopesAt(pieces, text.indexOf("b"))).toBe("string.quoted.double.isthmus");
    expect(scopesAt(pieces, text.indexOf("c"))).toBe("comment.line.number-sign.isthmus");
  });

  test.each(["8,5 mm", "1 000 mm", "1.2.3 mm"])("%s is marked as no number", async (written) => {
    expect(scopesAt(await colour(`ream ${written}`), 5)).toBe("invalid.illegal.number.isthmus");
  });

  test("a word that begins no statement has no statement's colour", async () => {
    expect(scopesAt(await colour("reem 8 mm"), 0)).toBe("variable.other.isthmus");
  });

  test("after a comma the statement goes on over blank and commented lines", async () => {
    const text = "lock D2, # far end\n\n  # measured\n  drilled 31 mm\nunreamed";
    const pieces = await colour(text);
    expect(scopesAt(pieces, text.indexOf("drilled"))).toBe(clause);
    expect(scopesAt(pieces, text.indexOf("measured"))).toBe("comment.line.number-sign.isthmus");
    expect(scopesAt(pieces, text.indexOf("unreamed"))).toMatch(statement);
  });
});

test("a Markdown fence that names the language is coloured, its surroundings are not", async () => {
  const text = "ream 8 mm\n```isthmus\nream 8 mm\n```\nream 8 mm";
  const pieces = await colour(text, "text.html.markdown");
  expect(scopesAt(pieces, text.indexOf("ream", 12))).toContain("keyword.other.statement.isthmus");
  expect(scopesAt(pieces, 0)).not.toContain("isthmus");
  expect(scopesAt(pieces, text.lastIndexOf("ream"))).not.toContain("isthmus");
});
