/**
 * Where a statement goes on in the next line: after a comma, unless the comma was left behind by someone still writing.
 */
import type { IToken } from "chevrotain";
import type { State } from "./line-state.ts";
import { T } from "./tokens.ts";

/** Index of the token with which the statement goes on behind its comma; undefined when the comma was left behind. */
export function continuation(state: State, index: number): number | undefined {
  let blank = true;
  for (let at = index + 1; at < state.raw.length; at += 1) {
    const next = state.raw[at];
    if (next === undefined) return undefined;
    if (next.tokenType === T.Newline) {
      if (blank) return undefined;
      blank = true;
    } else if (next.tokenType === T.Comment) {
      blank = false;
    } else {
      return beginsStatement(state, next) ? undefined : at;
    }
  }
  return undefined;
}

/** While a phrase is not yet written behind its comma, the next statement must not be taken for it. */
function beginsStatement(state: State, next: IToken): boolean {
  const head = state.out[state.lineFrom];
  if (next.tokenType === T.RBrace || head === undefined) return true;
  if (next.tokenType === T.Note)
    return indentOf(state.text, next.startOffset) <= indentOf(state.text, head.startOffset);
  if (next.tokenType !== T.Word || !state.neighbours(head.image, next.image)) return false;
  return indentOf(state.text, next.startOffset) <= indentOf(state.text, head.startOffset);
}

/** Blanks between the line's start and `offset`; what is not a blank counts too, so only line starts compare well. */
function indentOf(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text[at - 1] !== "\n" && text[at - 1] !== "\r") at -= 1;
  return offset - at;
}
