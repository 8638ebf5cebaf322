/**
 * What a line lacks or says twice once it is read to its end: clauses that must stand, clauses written again, parts of which only
 * one may stand. The reading itself is in `shape-statement.ts`.
 */
import type { Problem } from "./problems.ts";
import type { Reader } from "./shape-statement.ts";
import { expectedIn, insert, replace } from "./shape-words.ts";
import type { Span } from "./tree.ts";
import type { Alternatives } from "./vocabulary/rule.ts";

/** Adds what is wrong with the line as a whole to the reader's problems. */
export function checkWhole(reader: Reader): void {
  checkRepeated(reader);
  checkRequired(reader);
  if (reader.rule.alternatives !== undefined) checkAlternatives(reader, reader.rule.alternatives);
  checkBlock(reader);
}

function checkRepeated(reader: Reader): void {
  // The head and one clause.
  if (reader.sections.length <= 2) return;
  const first = new Map<string, Span>();
  for (const { rule, word, after, end } of reader.sections) {
    if (rule === undefined || rule.repeats === true) continue;
    const also = first.get(rule.word);
    if (also === undefined) {
      first.set(rule.word, word.span);
      continue;
    }
    const repairs = [replace("Take the second one away", { start: after, end }, "")];
    const inside = reader.statement.word.name;
    reader.problems.push({ slug: "repeated", span: word.span, found: rule.word, inside, also, repairs });
  }
}

function checkRequired(reader: Reader): void {
  if (reader.puzzled) return;
  const { rule, given } = reader;
  for (const clause of rule.clauses) {
    if (clause.required === true && !given.has(clause.word)) reader.problems.push(lacks(reader, [clause.word]));
  }
  const saysNothing = rule.slots.length === 0 && rule.clauses.length > 0 && given.size === 0;
  const told = rule.clauses.some((clause) => clause.required) || rule.alternatives?.needed === true;
  if (saysNothing && !told)
    reader.problems.push(
      lacks(
        reader,
        rule.clauses.map((clause) => clause.word),
      ),
    );
}

function checkAlternatives(reader: Reader, { ways, needed, together }: Alternatives): void {
  const taken = ways.filter((way) => way.some((part) => reader.given.has(part)));
  const [first, second] = taken;
  if (first === undefined) {
    const untrusted = reader.puzzled || reader.sections[0]?.faulty === true;
    if (needed === true && !untrusted)
      reader.problems.push(
        lacks(
          reader,
          ways.flatMap((way) => named(reader, way[0])),
        ),
      );
    return;
  }
  if (together === true) return;
  if (second !== undefined) {
    reader.problems.push(oneTooMany(reader, first, second));
    return;
  }
  if (reader.puzzled) return;
  for (const part of first) {
    if (!reader.given.has(part)) reader.problems.push(lacks(reader, named(reader, part)));
  }
}

/** Of two ways the one written later is too much. */
function oneTooMany(reader: Reader, one: readonly string[], other: readonly string[]): Problem {
  const startOf = (way: readonly string[]): number =>
    Math.min(...way.map((part) => reader.given.get(part)?.start ?? Infinity));
  const later = startOf(one) > startOf(other) ? one : other;
  const part = later.find((name) => reader.given.has(name));
  const found = part === undefined ? "" : (named(reader, part)[0] ?? "");
  const span = reader.given.get(part ?? "") ?? reader.statement.word.span;
  const ways = [one, other].map((way) => named(reader, way[0])[0] ?? "");
  const expected = [`one of ${ways.join(" or ")}`];
  return { slug: "misplaced", span, found, expected, inside: reader.statement.word.name };
}

/** A clause by its word, a slot of the head by what is expected in it. */
function named(reader: Reader, part: string | undefined): readonly string[] {
  if (part === undefined) return [];
  const slot = reader.rule.slots.find(({ name }) => name === part);
  return slot === undefined ? [part] : expectedIn(slot);
}

function checkBlock(reader: Reader): void {
  const { statement, rule } = reader;
  const inside = statement.word.name;
  if (rule.block === undefined && statement.block !== undefined) {
    reader.problems.push({
      slug: "misplaced",
      span: statement.block.open,
      found: "{",
      expected: ["the end of the line"],
      inside,
    });
  }
  if (rule.block !== undefined && rule.blockOptional !== true && statement.block === undefined) {
    const end = reader.sections.at(-1)?.end ?? statement.word.span.end;
    const braces = reader.contentsFollow
      ? insert("Write its opening brace", end, " {")
      : insert("Write its braces", end, " {\n}");
    const repairs = [braces];
    reader.problems.push({ slug: "missing", span: statement.word.span, expected: ["{"], inside, repairs });
  }
}

function lacks(reader: Reader, expected: readonly string[]): Problem {
  const { word } = reader.statement;
  return { slug: "missing", span: word.span, expected, inside: word.name };
}
