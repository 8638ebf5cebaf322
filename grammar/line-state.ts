/**
 * What the arranging of lines knows as it goes from token to token, and the few moves that all its parts make.
 */
import type { IToken } from "chevrotain";
import { shown } from "./characters.ts";
import type { Edit, Problem } from "./problems.ts";
import { madeToken, spanOf, T } from "./tokens.ts";
import type { Comment, Note, Span } from "./tree.ts";

/** Levels of parentheses that are read, and of braces. */
export const deepest = 64;
/** Which words may begin a statement beside one that begins with `word`; used to see that a comma was left behind. */
export type Neighbours = (word: string, next: string) => boolean;

export interface PlacedNote {
  readonly note: Note;
  /** It does not stand on a line of its own before a statement. */
  readonly astray: boolean;
}

export interface State {
  readonly text: string;
  readonly raw: readonly IToken[];
  readonly out: IToken[];
  readonly comments: Comment[];
  readonly notes: PlacedNote[];
  readonly problems: Problem[];
  /** Texts that do not close: hidden characters are milder there. */
  readonly quiet: Span[];
  readonly neighbours: Neighbours;
  /** Length of `out` when the present statement's line began. */
  lineFrom: number;
  /** Nothing but blanks so far on the line as it stands in the text. */
  fresh: boolean;
  /** Line ends up to this index of `raw` do not end the statement. */
  carriedTo: number;
  parens: number;
  operators: number;
  /** What follows a brace on its line is told once a line, with one edit each. */
  braceEdits: Edit[] | undefined;
  afterBrace: boolean;
}

export function last(state: State): IToken | undefined {
  return state.out.length > state.lineFrom ? state.out[state.out.length - 1] : undefined;
}

/** Pushes a token that stands for a stretch that could not be read; first on its line it stands for the statement's word. */
export function pushBroken(state: State, start: number, end: number): void {
  const type = state.out.length === state.lineFrom ? T.Head : T.Broken;
  const token = madeToken(type, state.text.slice(start, end), start);
  if (type === T.Head) token.payload = "broken";
  state.out.push(token);
}

/** Ends the statement, if there is one, with a line end at `offset`. */
export function endStatement(state: State, offset: number): void {
  if (state.out.length > state.lineFrom) {
    state.out.push(madeToken(T.Newline, "", offset));
  }
  state.lineFrom = state.out.length;
  state.parens = 0;
  state.operators = 0;
}

/** A line that does not begin with a word gets an empty one, so that the rest is read as ever. */
export function headless(state: State, token: IToken): void {
  const head = madeToken(T.Head, "", token.startOffset);
  head.payload = "broken";
  state.out.push(head);
  if (token.tokenType === T.OddNumber || token.tokenType === T.OddText) return;
  state.problems.push({
    slug: "unreadable",
    span: spanOf(token),
    found: shown(token.image),
    expected: ["the word of a statement"],
  });
}
