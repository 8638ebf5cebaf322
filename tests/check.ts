/**
 * Text in, text out: one `check` for each feature. This is the one test file that knows the tool's doors, so that a change of a
 * door is a change of this file and of no test.
 */
import { readFileSync } from "node:fs";
import { relative } from "node:path";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { layout } from "../grammar/layout.ts";
import { parse } from "../grammar/parse.ts";
import type { Edit } from "../grammar/problems.ts";
import { shape } from "../grammar/shape.ts";
import type { Span } from "../grammar/tree.ts";
import { type Analysis, analyse, libraryOver } from "../server/answers/analyse.ts";
import { type Offer, offersAt } from "../server/answers/completion.ts";
import { definitionAt } from "../server/answers/definition.ts";
import { fixesIn } from "../server/answers/fixes.ts";
import { hintsIn } from "../server/answers/hints.ts";
import { hoverAt } from "../server/answers/hover.ts";
import { linesOf } from "../server/answers/lines.ts";
import { type OutlineEntry, outlineOf } from "../server/answers/outline.ts";
import { type FileRead, readInside } from "../server/files/disk.ts";
import type { Finding } from "../server/findings/finding.ts";
import type { Library } from "../server/meaning/library.ts";
import { print } from "../server/quantity/print.ts";
import { type Marked, readMarked, writeMarked } from "./markers.ts";

const samples = fileURLToPath(new URL("../samples", import.meta.url));

// The samples do not change while tests run, so each import is read and parsed once.
const reads = new Map<string, FileRead>();
const library = libraryOver((from, path) => {
  const key = `${from}\n${path}`;
  const read = reads.get(key) ?? readInside(samples, from, path);
  reads.set(key, read);
  return read;
});

/** Analyses a text as if it stood in samples/plans, so that it can use the sample catalogue and protocol. */
export function analyseText(text: string, name = "checked.isthmus"): Analysis {
  return analyse(`${samples}/plans/${name}`, text, library);
}

/** Reads what a sample may read, and nothing else. */
export function sampleLibrary(): Library {
  return library;
}

export function sampleText(path: string): string {
  return readFileSync(`${samples}/${path}`, "utf8");
}

/** A sample plan with some of its text replaced; each `from` must stand in it exactly once. */
export function sampleWith(path: string, ...changes: readonly (readonly [from: string, to: string])[]): string {
  return changes.reduce((text, [from, to]) => {
    if (text.split(from).length !== 2)
      throw new Error(`"${from}" stands ${text.split(from).length - 1} times in ${path}`);
    return text.replace(from, () => to);
  }, sampleText(path));
}

/** The findings are exactly the marked ones: `^^^^ grade slug` or `^^^^ grade slug: part of the message`. */
export function checkFindings(source: string): void {
  const { text, marks } = readMarked(source);
  const found = analyseText(text).judgement.findings.map((finding) => {
    const { start, end } = finding.place.span;
    const mark = marks.find((each) => each.start === start && each.end === end && matches(each.says, finding));
    return { start, end, says: mark?.says ?? `${finding.grade} ${finding.slug}: ${finding.message}` };
  });
  expect(writeMarked(text, found)).toBe(writeMarked(text, marks));
}

function matches(says: string, finding: Finding): boolean {
  const [head = "", ...rest] = says.split(": ");
  return head === `${finding.grade} ${finding.slug}` && finding.message.includes(rest.join(": "));
}

/** One reckoning as it is printed. */
export function checkReckoning(text: string, id: string, printed: string): void {
  const reckoning = analyseText(text).reckonings?.byId.get(id);
  const answer = reckoning?.answer;
  if (reckoning === undefined || answer === undefined) expect(`no reckoning ${id}`).toBe(printed);
  else if (answer.kind === "word") expect(answer.word).toBe(printed);
  else if (answer.kind === "unknown") expect(`unknown: ${answer.because}`).toBe(printed);
  else expect(print(answer, reckoning.unit)).toBe(printed);
}

/** The canonical layout of a text; undefined expected means it must be refused. */
export function checkLayout(text: string, expected: string | undefined): void {
  const laidOut = layout(parse(text));
  expect(laidOut).toBe(expected);
  if (laidOut !== undefined) expect(layout(parse(laidOut)), "laid out twice").toBe(laidOut);
}

/** The sample plan, catalogue or protocol with the cursor of `line` in it: without `$0` it must stand in the sample once. */
export function cursorIn(line: string, path = "plans/simple-shaft.isthmus"): string {
  return sampleWith(path, [line.replace("$0", ""), line]);
}

/** What the hover at the cursor says holds every part; without parts there is no hover. A caret line marks its stretch. */
export function checkHover(source: string, ...parts: readonly (string | RegExp)[]): void {
  const { text, cursor, marks } = withCursor(source);
  const hover = hoverAt(analyseText(text), cursor);
  if (parts.length === 0) expect(hover).toBeUndefined();
  for (const part of parts) {
    if (typeof part === "string") expect(hover?.markdown ?? "no hover").toContain(part);
    else expect(hover?.markdown ?? "no hover").toMatch(part);
  }
  for (const mark of marks)
    expect(text.slice(hover?.span.start, hover?.span.end)).toBe(text.slice(mark.start, mark.end));
}

export interface Expected {
  /** Exactly these labels in this order. */
  readonly are?: readonly string[];
  readonly hold?: readonly string[];
  readonly lack?: readonly string[];
  /** Part of what stands beside a label. */
  readonly details?: Readonly<Record<string, string>>;
  /** What each offer would replace. */
  readonly replace?: string;
  /** What is written by a client that has places to fill in, each place between « and ». */
  readonly snippets?: Readonly<Record<string, string>>;
  /** File name of the text, when it is no plan. */
  readonly name?: string;
}

/** What is offered at the cursor. */
export function checkOffers(source: string, expected: Expected): void {
  const { text, cursor } = withCursor(source);
  const offers = offersAt(analyseText(text, expected.name), cursor);
  const labels = offers.map(({ label }) => label);
  const of = (label: string): Offer | undefined => offers.find((offer) => offer.label === label);
  if (expected.are !== undefined) expect(labels).toEqual(expected.are);
  if (expected.hold !== undefined) expect(labels).toEqual(expect.arrayContaining([...expected.hold]));
  for (const label of expected.lack ?? []) expect(labels).not.toContain(label);
  for (const [label, detail] of Object.entries(expected.details ?? {})) {
    expect(of(label)?.detail ?? "no such offer", label).toContain(detail);
  }
  for (const [label, snippet] of Object.entries(expected.snippets ?? {}))
    expect(placesShown(of(label)?.snippet)).toBe(snippet);
  if (expected.replace === undefined) return;
  expect(offers.length).toBeGreaterThan(0);
  for (const { span } of offers) expect(text.slice(span.start, span.end)).toBe(expected.replace);
}

/** Slugs of what the shape of a text says against the words in a stretch of it. */
export function complaintsIn(text: string, { start, end }: Span): string[] {
  return shape(parse(text).tree)
    .problems.filter(({ span }) => span.start < end && start < span.end)
    .flatMap(({ slug }) => (slug === "unknown-word" || slug === "misplaced" || slug === "unit-mismatch" ? [slug] : []));
}

/** A snippet as it reads when nothing is filled in: each place by the first of its choices or by its name. */
export function snippetAsWritten(snippet: string): string {
  return (placesShown(snippet) ?? "").replace(/«([^»,]*)[^»]*»/g, "$1");
}

function placesShown(snippet: string | undefined): string | undefined {
  return snippet?.replace(/\$\{\d+[:|]([^}|]*)\|?\}/g, "«$1»").replace(/\$\d/g, "«»");
}

/** `catalogue/tarnbeck.isthmus: hole [D2], tip 24 mm` or `nothing`; the brackets stand round what is pointed at. */
export function checkDefinition(source: string, expected: string, name?: string): void {
  const { text, cursor } = withCursor(source);
  const analysis = analyseText(text, name);
  const place = definitionAt(analysis, cursor);
  if (place === undefined) {
    expect("nothing").toBe(expected);
    return;
  }
  const lines = linesOf(analysis.texts.get(place.file) ?? "");
  const { line, character } = lines.position(place.span.start);
  const row = lines.text(line);
  const end = character + place.span.end - place.span.start;
  const shown = `${row.slice(0, character)}[${row.slice(character, end)}]${row.slice(end)}`.trim();
  expect(`${relative(samples, place.file).replaceAll("\\", "/")}: ${shown}`).toBe(expected);
}

/** One line an entry, indented: `operation`, `  lock D2 » 315 mm`. */
export function checkOutline(text: string, expected: string, name?: string): void {
  const rows = (entries: readonly OutlineEntry[], indent: string): string[] =>
    entries.flatMap((entry) => [
      `${indent}${entry.name}${entry.detail === "" ? "" : ` » ${entry.detail}`}`,
      ...rows(entry.children, `${indent}  `),
    ]);
  expect(rows(outlineOf(analyseText(text, name)), "").join("\n")).toBe(expected.replace(/^\n/, ""));
}

/** Every hint at the end of its line: `ream 8.5 mm to 11 mm by 0.5 mm » 1 mm over the nail`. */
export function checkHints(text: string, expected: readonly string[]): void {
  const analysis = analyseText(text);
  const lines = linesOf(text);
  const shown = hintsIn(analysis, { start: 0, end: text.length }).map(({ offset, label }) => {
    const { line, character } = lines.position(offset);
    return `${lines.text(line).slice(0, character).trim()} » ${label}`;
  });
  expect(shown).toEqual(expected);
}

/** The fix at the cursor whose title begins so, and the lines it takes away (`- `) and puts in (`+ `). */
export function checkFix(source: string, title: string, changes: readonly string[], name?: string): string {
  const { text, cursor } = withCursor(source);
  const fixes = fixesIn(analyseText(text, name), { start: cursor, end: cursor });
  const fix = fixes.find((each) => each.title.startsWith(title));
  expect(fix?.title ?? fixes.map((each) => each.title)).toContain(title);
  const fixed = applied(text, fix?.edits ?? []);
  expect(changedLines(text, fixed)).toEqual(changes);
  return fixed;
}

/** The text after the edits, which must not overlap. */
export function applied(text: string, edits: readonly Edit[]): string {
  const ordered = [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  let at = 0;
  let result = "";
  for (const { span, text: put } of ordered) {
    expect(span.start, "edits overlap").toBeGreaterThanOrEqual(at);
    result += text.slice(at, span.start) + put;
    at = span.end;
  }
  return result + text.slice(at);
}

export function isWithin({ start, end }: Span, text: string): boolean {
  return Number.isInteger(start) && Number.isInteger(end) && 0 <= start && start <= end && end <= text.length;
}

function changedLines(before: string, after: string): string[] {
  const [old, now] = [before.split("\n"), after.split("\n")];
  while (old.length > 0 && now.length > 0 && old[0] === now[0]) {
    old.shift();
    now.shift();
  }
  while (old.length > 0 && now.length > 0 && old.at(-1) === now.at(-1)) {
    old.pop();
    now.pop();
  }
  return [...old.map((line) => `- ${line.trim()}`), ...now.map((line) => `+ ${line.trim()}`)];
}

function withCursor(source: string): Marked & { readonly cursor: number } {
  const marked = readMarked(source);
  if (marked.cursor === undefined) throw new Error("the text has no cursor");
  return { ...marked, cursor: marked.cursor };
}
