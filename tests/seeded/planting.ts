/**
 * Planting one fault in a sample plan: an edit of its text, and the line at which the tool has to name it. Where the fault lies is said
 * by whoever plants it, never read from what the tool finds. Not a test itself.
 */
import type { Edit } from "../../grammar/problems.ts";
import type { Analysis } from "../../server/answers/analyse.ts";
import { takeOut } from "../../server/findings/line-edits.ts";
import type { LockStep, NailStep, Place, Plan, Step, Typed } from "../../server/meaning/plan.ts";
import type { Known, Quantity } from "../../server/quantity/quantity.ts";

export interface Sample {
  readonly name: string;
  readonly text: string;
  readonly plan: Plan;
  readonly analysis: Analysis;
}

export interface Planted {
  readonly text: string;
  /** Counted from 0, in the text with the fault in it. */
  readonly line: number;
}

/** Undefined: nothing to plant there. A reason: it could be planted and would be no fault. */
export type Attempt = Planted | { readonly soundBecause: string } | undefined;

export interface Kind {
  readonly name: string;
  /** One of these has to be found at the line. */
  readonly slugs: readonly string[];
  readonly plant: (sample: Sample) => readonly Attempt[];
}

export function kind(name: string, slugs: string | readonly string[], plant: Kind["plant"]): Kind {
  return { name, slugs: typeof slugs === "string" ? [slugs] : slugs, plant };
}

/** All edits at once; `at` is a place of the sample, or words that open the line in the text with the fault in it. */
export function planted({ text }: Sample, edits: readonly Edit[], at: number | string): Planted {
  const inOrder = [...edits].sort((a, b) => b.span.start - a.span.start);
  const after = inOrder.reduce((so, { span, text: put }) => so.slice(0, span.start) + put + so.slice(span.end), text);
  if (typeof at === "string") {
    const line = after.split("\n").findIndex((each) => each.trimStart().startsWith(at));
    if (line < 0) throw new Error(`no line opens with "${at}"`);
    return { text: after, line };
  }
  const shift = edits.reduce(
    (sum, { span, text: put }) => (span.end <= at ? sum + put.length - (span.end - span.start) : sum),
    0,
  );
  return { text: after, line: after.slice(0, at + shift).split("\n").length - 1 };
}

/** Another text in the place of what stands there; the fault lies in that line. */
export function put(sample: Sample, place: Place | undefined, text: string): Attempt {
  return place === undefined ? undefined : planted(sample, [{ span: place.span, text }], place.span.start);
}

/** Whole statements taken out; the fault shows at `at`. */
export function without(sample: Sample, places: readonly Place[], at: number | string | undefined): Attempt {
  if (at === undefined || places.length === 0) return undefined;
  return planted(
    sample,
    places.map((place) => takeOut(sample.text, place.span)),
    at,
  );
}

/** A line of its own before the statement at `place`; the fault lies in it. */
export function lineBefore({ text }: Sample, place: Place | undefined, line: string): Attempt {
  if (place === undefined) return undefined;
  const start = lineStart(text, place.span.start);
  const indent = text.slice(start, place.span.start);
  return { text: `${text.slice(0, start)}${indent}${line}\n${text.slice(start)}`, line: lineCount(text, start) };
}

/** The line at `place` once more right after it; the fault lies in the second. */
export function doubled({ text }: Sample, place: Place): Planted {
  const [start, end] = [lineStart(text, place.span.start), text.indexOf("\n", place.span.end) + 1];
  const line = lineCount(text, end);
  return { text: `${text.slice(0, end)}${text.slice(start, end)}${text.slice(end)}`, line };
}

function lineAt(text: string, offset: number): string {
  const end = text.indexOf("\n", offset);
  return text.slice(lineStart(text, offset), end < 0 ? text.length : end);
}

function lineCount(text: string, offset: number): number {
  return text.slice(0, offset).split("\n").length - 1;
}

/** The line of the statement at `moved` put before the one at `target`. */
export function moved(
  sample: Sample,
  from: Place | undefined,
  target: Place | undefined,
  at: number | string,
): Attempt {
  if (from === undefined || target === undefined) return undefined;
  const { text } = sample;
  const start = lineStart(text, from.span.start);
  const end = text.indexOf("\n", from.span.end) + 1;
  const to = lineStart(text, target.span.start);
  const edits = [
    { span: { start, end }, text: "" },
    { span: { start: to, end: to }, text: text.slice(start, end) },
  ];
  return planted(sample, edits, at);
}

function lineStart(text: string, offset: number): number {
  return text.lastIndexOf("\n", offset - 1) + 1;
}

export function stepsOf<K extends Step["kind"]>({ plan }: Sample, word: K): readonly Extract<Step, { kind: K }>[] {
  return plan.steps.filter((step): step is Extract<Step, { kind: K }> => step.kind === word);
}

export function nailOf(sample: Sample): NailStep | undefined {
  return stepsOf(sample, "nail")[0];
}

export function locksOf(sample: Sample, end?: "top" | "tip"): readonly LockStep[] {
  return stepsOf(sample, "lock").filter((lock) => end === undefined || endOf(sample, lock.hole.text) === end);
}

export function endOf({ plan }: Sample, hole: string): "top" | "tip" | undefined {
  return plan.nail?.holes.find(({ name }) => name.text === hole)?.end;
}

export function isSlot({ plan }: Sample, hole: string): boolean {
  return plan.nail?.holes.find(({ name }) => name.text === hole)?.slot !== undefined;
}

/** A known value in base units: mm, deg, s, kg. */
export function known(from: Quantity | Typed | undefined): number | undefined {
  const quantity = from === undefined || "kind" in from ? from : from.quantity;
  return quantity?.kind === "known" ? quantity.value : undefined;
}

/** The values of a catalogue's list, small to large. */
export function valuesOf(list: { readonly sizes: readonly Typed[] } | undefined): readonly number[] {
  const known = (list?.sizes ?? [])
    .map(({ quantity }) => quantity)
    .filter((each): each is Known => each.kind === "known");
  return known.map(({ value }) => value).sort((a, b) => a - b);
}

/** As typed in a plan: at most two decimals. */
export function mm(value: number): string {
  return `${Math.round(value * 100) / 100} mm`;
}

export function textOf({ text }: Sample, place: Place): string {
  return text.slice(place.span.start, place.span.end);
}

/** Every match of a pattern as places, but in lines with a note, a remark or a text of their own. */
export function matches({ text, plan }: Sample, pattern: RegExp): readonly Place[] {
  return [...text.matchAll(pattern)]
    .filter(({ index }) => !/[#"]/.test(lineAt(text, index)))
    .map((match) => ({ file: plan.file, span: { start: match.index, end: match.index + match[0].length } }));
}

/** At most `most` of a list, spread over it evenly. */
export function some<T>(list: readonly T[], most: number): readonly T[] {
  if (list.length <= most) return list;
  return Array.from({ length: most }, (_, at) => list[Math.floor((at * list.length) / most)]).filter(
    (each): each is T => each !== undefined,
  );
}
