/** Checks of what an editor shows beside hovers and offers: names over several files, stretches of text, edits that are tried. */
import { fileURLToPath } from "node:url";
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import { type Analysis, analyse } from "../../server/answers/analyse.ts";
import { type Facts, factsOf } from "../../server/answers/facts.ts";
import { linesOf } from "../../server/answers/lines.ts";
import { analyseText, applied, sampleLibrary, sampleText } from "../check.ts";
import { readMarked } from "../markers.ts";

export interface Checked {
  readonly analysis: Analysis;
  readonly text: string;
  readonly cursor: number;
  /** The stretch between two cursors `$0`, else the cursor alone. */
  readonly span: Span;
}

/** A marked text, as if it stood in samples/plans. */
export function marked(source: string, name?: string): Checked {
  const second = source.indexOf("$0", source.indexOf("$0") + 1);
  const { text, cursor } = readMarked(second < 0 ? source : source.slice(0, second) + source.slice(second + 2));
  if (cursor === undefined) throw new Error("the text has no cursor");
  const end = second < 0 ? cursor : second - 2;
  return { analysis: analyseText(text, name), text, cursor, span: { start: cursor, end } };
}

/** Each stretch in its line with brackets round it, in the order given. */
export function bracketed(text: string, spans: readonly Span[]): string[] {
  const lines = linesOf(text);
  return spans.map(({ start, end }) => {
    const { line } = lines.position(start);
    const from = lines.offset({ line, character: 0 });
    const to = Math.max(end, from + lines.text(line).length);
    return `${text.slice(from, start)}[${text.slice(start, end)}]${text.slice(end, to)}`.trim();
  });
}

/** The lines that edits take away (`- `) and put in (`+ `), wherever they stand. */
export function changes(text: string, edits: readonly Edit[]): string[] {
  const before = text.split("\n");
  const after = applied(text, edits).split("\n");
  const gone = before.filter((line) => count(before, line) > count(after, line));
  const come = after.filter((line) => count(after, line) > count(before, line));
  return [...gone.map((line) => `- ${line.trim()}`), ...come.map((line) => `+ ${line.trim()}`)];
}

function count(lines: readonly string[], line: string): number {
  return lines.filter((each) => each === line).length;
}

/** The facts of samples, by their paths in samples/. */
export function sampleFacts(...paths: readonly string[]): Facts[] {
  return paths.map((path) => {
    const file = fileURLToPath(new URL(`../../samples/${path}`, import.meta.url));
    return factsOf(analyse(file, sampleText(path), sampleLibrary()));
  });
}
