/**
 * Braces in their lines: one opens a block at the end of its statement's line, one closes it on a line of its own. Elsewhere they
 * do the same and the place is told.
 */
import type { IToken } from "chevrotain";
import { endStatement, headless, type State } from "./line-state.ts";
import type { Edit } from "./problems.ts";
import { endOf, spanOf, T } from "./tokens.ts";
import type { Span } from "./tree.ts";

/** A brace that does not stand at the end of its statement's line still opens that statement's block. */
export function openBrace(state: State, token: IToken, index: number): number {
  if (state.out.length === state.lineFrom) startBlockAlone(state, token);
  state.out.push(token);
  endStatement(state, endOf(token));
  state.afterBrace = true;
  return index + 1;
}

function startBlockAlone(state: State, token: IToken): void {
  const [before, end] = state.out.slice(-2);
  const follows = end?.tokenType === T.Newline && before?.tokenType !== T.LBrace && before?.tokenType !== T.RBrace;
  if (!follows || before === undefined) {
    headless(state, token);
    return;
  }
  state.out.pop();
  state.lineFrom = state.out.length - 1;
  const span: Span = { start: endOf(before), end: endOf(token) };
  const clean = state.text.slice(span.start, token.startOffset).trim() === "";
  state.problems.push({
    slug: "unreadable",
    span: spanOf(token),
    found: "{",
    expected: ["the brace at the end of its statement's line"],
    ...(clean && { repairs: [{ title: "Move the brace up", edits: [{ span, text: " {" }] }] }),
  });
}

export function closeBrace(state: State, token: IToken, index: number): number {
  if (state.out.length > state.lineFrom) breakLine(state, token.startOffset);
  state.out.push(token);
  endStatement(state, endOf(token));
  state.afterBrace = true;
  return index + 1;
}

/** Ends the statement before a token that should stand on a line of its own. Told once a line; later places add an edit. */
export function breakLine(state: State, offset: number): void {
  endStatement(state, offset);
  state.afterBrace = false;
  const edit: Edit = { span: { start: offset, end: offset }, text: "\n" };
  if (state.braceEdits !== undefined) {
    state.braceEdits.push(edit);
    return;
  }
  state.braceEdits = [edit];
  state.problems.push({
    slug: "unreadable",
    span: { start: offset, end: offset + 1 },
    found: state.text[offset] ?? "",
    expected: [onNewLine],
    repairs: [{ title: "Give each its own line", edits: state.braceEdits }],
  });
}

/** What is expected where a statement or a brace does not begin its line; the layout puts that right by itself. */
export const onNewLine = "a new line";
