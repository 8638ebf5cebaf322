/**
 * Opens and closes the reading of one document: finds its first statement, gathers its names, and at the end tells the names
 * that were never given or never used. Which statement means what is known elsewhere.
 */
import type { Parsed } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import type { Shaped, ShapedStatement } from "../../grammar/shaped.ts";
import type { Item, Span, Statement } from "../../grammar/tree.ts";
import { type Draw, magnificationOf, namesIn, partsOf, valueOfName } from "./evaluate.ts";
import { mended } from "./mend.ts";
import { gatherNames, type NamedEntry } from "./names.ts";
import type { Said } from "./plan.ts";
import { changeTo, inTextOrder, type ProblemList, problemList } from "./problems.ts";
import { lineSpan, placeOf, type Reader, said } from "./read.ts";
import { childOf } from "./slots.ts";

/** The statement that opens the file's document: a plan, a catalogue or a protocol. */
export function openingStatement(shaped: Shaped): ShapedStatement | undefined {
  return mended(shaped).find((statement) => documentWords.has(statement.rule?.word ?? ""));
}

const documentWords: ReadonlySet<string> = new Set(["plan", "catalogue", "protocol"]);

/** A reader at the document's own level, with every name of the document gathered. */
export function openDocument(
  parsed: Parsed,
  shaped: Shaped,
  file: string,
  opening: ShapedStatement,
  draw: Draw | undefined,
): Reader {
  const problems = problemList([...parsed.problems, ...shaped.problems], brokenLines(parsed.tree.statements));
  const names = gatherNames(opening, problems);
  const mentioned = wordsNotUnderstood(parsed, shaped, problems);
  const reader: Reader = {
    file,
    problems,
    names,
    atEntry: landmarkAtEntry(opening),
    mentioned,
    depth: { now: 0, overrun: false },
    missing: new Map(),
    circles: new Set(),
    draw,
    strays: [],
    scope: names.root,
  };
  reckonNames(reader);
  return reader;
}

/** The near joint of a femur or a humerus is no place to enter. */
function landmarkAtEntry(opening: ShapedStatement): string | undefined {
  const bone = childOf(childOf(opening, "case"), "bone")?.slots.get("bone")?.[0];
  return bone?.kind === "word" && (bone.name === "femur" || bone.name === "humerus") ? undefined : "knee-joint";
}

/** Names that other names rest on come first, so that a long chain is worked out link by link, whichever way it is written. */
function reckonNames(reader: Reader): void {
  const opened = new Set<NamedEntry>();
  const waiting = [...reader.names.entries].reverse();
  for (let entry = waiting.at(-1); entry !== undefined; entry = waiting.at(-1)) {
    if (opened.has(entry)) {
      waiting.pop();
      valueOfName(reader, entry);
    } else {
      opened.add(entry);
      waiting.push(...namesIn(entry.item, entry.scope).filter((inner) => !opened.has(inner)));
    }
  }
  for (const view of reader.names.views.values()) {
    magnificationOf(reader, view);
  }
}

/** The title after the document's word; empty, at the word's place, when there is none. */
export function titleOf(reader: Reader, opening: ShapedStatement): Said {
  return said(reader, opening, "title") ?? { text: "", place: placeOf(reader, opening.statement.word.span) };
}

/** Ends the reading: tells names that are missing or never used. Returns all problems of meaning in the order of the text. */
export function closeDocument(reader: Reader): readonly Problem[] {
  tellMissing(reader);
  if (!reader.depth.overrun) {
    tellUnused(reader);
  }
  return inTextOrder(reader.problems.added);
}

function tellMissing({ missing, problems }: Reader): void {
  for (const { kind, word, near } of missing.values()) {
    problems.add({
      slug: kind === "view" ? "scale-missing" : "name-unknown",
      span: word.span,
      found: word.name,
      ...(near === undefined ? {} : { near, repairs: [changeTo(word.span, word.name, near)] }),
    });
  }
}

/** Landmarks may stand for the reader's sake; a value or a view that nothing uses is most likely a slip. */
function tellUnused({ names, mentioned, problems }: Reader): void {
  const values = names.entries.filter((entry) => entry.kind === "value");
  for (const { word, uses } of [...values, ...names.views.values()]) {
    if (uses.length === 0 && !mentioned.has(word.name)) {
      problems.add({ slug: "name-unused", span: word.span, found: word.name });
    }
  }
}

/** One mistake is told for a line that could not be read, and the text has told it. */
function brokenLines(statements: readonly Statement[]): readonly Span[] {
  return statements.flatMap((statement) => {
    const inner = brokenLines(statement.block?.statements ?? []);
    const line = { start: statement.span.start, end: statement.block?.open.start ?? statement.span.end };
    return statement.broken ? [line, ...inner] : inner;
  });
}

/** Every word in a line that is not understood: names may be given or used there, so nothing is said about them. */
function wordsNotUnderstood(parsed: Parsed, shaped: Shaped, problems: ProblemList): ReadonlySet<string> {
  if (parsed.problems.length === 0 && shaped.problems.length === 0) {
    return new Set();
  }
  const understood = new Set<Statement>();
  const note = (statement: ShapedStatement): void => {
    const { statement: written, rule } = statement;
    if (rule !== undefined && !written.broken && problems.spoiling(lineSpan(statement)) === undefined) {
      understood.add(written);
    }
    statement.children.forEach(note);
  };
  shaped.statements.forEach(note);
  const words = new Set<string>();
  const walk = (statement: Statement): void => {
    if (!understood.has(statement)) {
      for (const phrase of statement.phrases) {
        for (const item of phrase.items) {
          wordsOf(item, words);
        }
      }
    }
    statement.block?.statements.forEach(walk);
  };
  parsed.tree.statements.forEach(walk);
  return words;
}

function wordsOf(item: Item, into: Set<string>): void {
  if (item.kind === "word") {
    into.add(item.name);
  }
  if (item.kind === "reading") {
    into.add(item.view.name);
  }
  for (const part of partsOf(item)) {
    wordsOf(part, into);
  }
}
