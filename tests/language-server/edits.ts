/** The protocol's places and edits, and a text with edits in it, as an editor applies them. */
import { linesOf } from "../../server/answers/lines.ts";

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export interface TextEdit {
  readonly range: Range;
  readonly newText: string;
}

/** Where `words` stand in a text, or a place `within` characters further on. */
export function positionOf(text: string, words: string, within = 0): Position {
  return linesOf(text).position(text.indexOf(words) + within);
}

/** From the last edit to the first, so that none moves another. */
export function applied(text: string, edits: readonly TextEdit[]): string {
  const lines = linesOf(text);
  return [...edits]
    .sort((a, b) => lines.offset(b.range.start) - lines.offset(a.range.start))
    .reduce(
      (now, { range, newText }) =>
        now.slice(0, lines.offset(range.start)) + newText + now.slice(lines.offset(range.end)),
      text,
    );
}
