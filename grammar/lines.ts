/**
 * Puts the lexer's tokens in order for the parser: one line end behind each statement (a comma carries it on into the next line),
 * braces at their places, words told apart, unreadable stretches gathered into one token each, comments and notes set aside.
 */
import type { IToken, TokenType } from "chevrotain";
import { breakLine, closeBrace, openBrace } from "./braces.ts";
import { continuation } from "./carrying.ts";
import { isHidden, shown } from "./characters.ts";
import {
  deepest,
  endStatement,
  headless,
  last,
  type Neighbours,
  type PlacedNote,
  pushBroken,
  type State,
} from "./line-state.ts";
import { oddNumberProblem, oddProblem, signProblem, textProblem } from "./oddities.ts";
import type { Problem } from "./problems.ts";
import { openTextEnd } from "./texts.ts";
import { endOf, madeToken, retype, spanOf, T, typeOfWord } from "./tokens.ts";
import type { Comment, Note, Span } from "./tree.ts";

/** Operators in one phrase; a longer chain would make a tree too deep to walk. */
const mostOperators = 256;

export interface Arranged {
  readonly tokens: IToken[];
  /** Texts that do not close, in order. */
  readonly quiet: readonly Span[];
  readonly comments: readonly Comment[];
  /** In order. */
  readonly notes: readonly PlacedNote[];
  readonly problems: Problem[];
}

export function arrange(text: string, raw: readonly IToken[], neighbours: Neighbours): Arranged {
  const state: State = {
    text,
    raw,
    out: [],
    comments: [],
    notes: [],
    problems: [],
    quiet: [],
    neighbours,
    lineFrom: 0,
    fresh: true,
    carriedTo: -1,
    parens: 0,
    operators: 0,
    braceEdits: undefined,
    afterBrace: false,
  };
  let index = 0;
  while (index < raw.length) index = take(state, index);
  endStatement(state, text.length);
  return {
    tokens: state.out,
    quiet: state.quiet,
    comments: state.comments,
    notes: state.notes,
    problems: state.problems,
  };
}

/** Takes the token at `index` (and what is glued to it) and returns the index after it. */
function take(state: State, index: number): number {
  const token = state.raw[index];
  if (token === undefined) return index + 1;
  const type = token.tokenType;
  if (type === T.Newline) return newline(state, token, index);
  if (type === T.Comment || type === T.Note) return aside(state, token, index);
  if (type === T.Odd && isAlone(state, token, index)) return index + 1;
  if (state.afterBrace) breakLine(state, token.startOffset);
  const next = significant(state, token, type, index);
  state.fresh = false;
  return next;
}

function significant(state: State, token: IToken, type: TokenType, index: number): number {
  if (type === T.Odd || touchesWrongly(state, token, type)) return cluster(state, index);
  if (type === T.LBrace) return openBrace(state, token, index);
  if (type === T.RBrace) return closeBrace(state, token, index);
  const first = state.out.length === state.lineFrom;
  if (type === T.Word) {
    if (first) retype(token, T.Head);
    else if (!state.fresh) retype(token, typeOfWord(token.image));
    state.out.push(token);
    return index + 1;
  }
  if (first) headless(state, token);
  return within(state, token, type, index);
}

/** Tokens other than words, odd stretches and braces. */
function within(state: State, token: IToken, type: TokenType, index: number): number {
  switch (type) {
    case T.PlainNumber:
      retype(token, T.Number);
      return number(state, token, index);
    case T.Number:
      return number(state, token, index);
    case T.OddNumber:
      return broken(state, token, oddNumberProblem(token.image, spanOf(token)), index);
    case T.OpenText:
      return openText(state, token, index);
    case T.OddText:
    case T.Text:
      return text(state, token, index);
    case T.UnitSign:
      retype(token, T.Unit);
      break;
    case T.Minus:
      return minus(state, token, index);
    case T.LParen:
      return openParen(state, token, index);
    case T.RParen:
      state.parens = Math.max(0, state.parens - 1);
      break;
    case T.Comma:
      if (state.parens === 0) state.operators = 0;
      break;
    case T.Plus:
    case T.Star:
    case T.Slash:
      if (tooMany(state)) return tooDeep(state, token, index);
      break;
    default:
      break;
  }
  state.out.push(token);
  return index + 1;
}

function tooMany(state: State): boolean {
  state.operators += 1;
  return state.operators > mostOperators;
}

function broken(state: State, token: IToken, problem: Problem, index: number): number {
  state.problems.push(problem);
  pushBroken(state, token.startOffset, endOf(token));
  return index + 1;
}

const glueable: ReadonlySet<TokenType> = new Set<TokenType>([
  ...[T.Word, T.Head, T.To, T.By, T.On, T.Unit, T.UnitSign, T.Number, T.PlainNumber, T.OddNumber, T.Code, T.Date],
  ...[T.Odd, T.Broken, T.Minus, T.Sign],
]);

/** `8.5mn`, `0x10`, `10-5`, `knee-`: tokens that touch and may not. A unit may touch its number, a sign what it signs. */
function touchesWrongly(state: State, token: IToken, type: TokenType): boolean {
  const before = last(state);
  if (before === undefined || endOf(before) !== token.startOffset) return false;
  const earlier = before.tokenType;
  if (!glueable.has(type) || !glueable.has(earlier)) return false;
  if (earlier === T.Number) return !(type === T.UnitSign || (type === T.Word && typeOfWord(token.image) === T.Unit));
  if (earlier === T.Broken) return type !== T.UnitSign && type !== T.Word;
  return earlier !== T.Sign && earlier !== T.Minus;
}

/** Hidden characters before anything else on the line, touching nothing: told of by themselves, they make no statement. */
function isAlone(state: State, token: IToken, index: number): boolean {
  if (state.out.length > state.lineFrom || !isHidden(token.image)) return false;
  const next = state.raw[index + 1];
  return next === undefined || next.startOffset !== endOf(token) || !glueable.has(next.tokenType);
}

/** Gathers all that touches the odd token at `index`, to both sides. */
function cluster(state: State, index: number): number {
  let start = state.raw[index]?.startOffset ?? 0;
  let told = false;
  for (let before = last(state); before !== undefined; before = last(state)) {
    if (endOf(before) !== start || !glueable.has(before.tokenType)) break;
    told ||= before.tokenType === T.Broken || before.payload === "broken";
    start = before.startOffset;
    state.out.pop();
  }
  let end = start;
  let at = index;
  for (let token = state.raw[at]; token !== undefined; token = state.raw[at]) {
    if (at > index && (token.startOffset !== end || !glueable.has(token.tokenType))) break;
    end = endOf(token);
    at += 1;
  }
  const problem = told ? undefined : oddProblem(state.text.slice(start, end), { start, end });
  if (problem !== undefined) state.problems.push(problem);
  pushBroken(state, start, end);
  return at;
}

function number(state: State, token: IToken, index: number): number {
  const before = last(state);
  if (before?.tokenType !== T.Number) {
    state.out.push(token);
    return index + 1;
  }
  const span = { start: before.startOffset, end: endOf(token) };
  state.out.pop();
  state.problems.push({
    slug: "unreadable",
    span,
    found: shown(state.text.slice(span.start, span.end)),
    expected: ["a unit or a comma between two numbers"],
  });
  pushBroken(state, span.start, span.end);
  return index + 1;
}

function text(state: State, token: IToken, index: number): number {
  const problem = textProblem(token.image, spanOf(token));
  if (problem !== undefined) return broken(state, token, problem, index);
  state.out.push(token);
  return index + 1;
}

/** A text that does not close ends early, so that it costs no more than its own statement; what was lexed within it is left out. */
function openText(state: State, token: IToken, index: number): number {
  const start = token.startOffset;
  const end = openTextEnd(state.text, start, endOf(token));
  const source = state.text.slice(start, end);
  const problem = textProblem(source, { start, end });
  if (problem !== undefined) state.problems.push(problem);
  pushBroken(state, start, end);
  state.quiet.push({ start, end });
  const brace = state.text.slice(end, endOf(token)).indexOf("{");
  if (brace >= 0) openBrace(state, madeToken(T.LBrace, "{", end + brace), index);
  let at = index + 1;
  while ((state.raw[at]?.startOffset ?? end) < end) at += 1;
  return at;
}

/** A minus with blanks round it works on two values; one that touches what follows it is a sign. */
function minus(state: State, token: IToken, index: number): number {
  if (tooMany(state)) return tooDeep(state, token, index);
  const next = state.raw[index + 1];
  const touches = next !== undefined && next.startOffset === endOf(token) && next.tokenType !== T.Newline;
  if (touches) {
    const before = last(state)?.tokenType;
    const afterValue = before === T.Number || before === T.Unit || before === T.RParen;
    if (afterValue) return broken(state, token, signProblem(token.startOffset, state.text), index);
    retype(token, T.Sign);
  }
  state.out.push(token);
  return index + 1;
}

function openParen(state: State, token: IToken, index: number): number {
  const before = last(state);
  state.parens += 1;
  if (state.parens > deepest) return tooDeep(state, token, index);
  const called = before?.tokenType === T.Word && endOf(before) === token.startOffset;
  if (called) retype(token, T.CallParen);
  state.out.push(token);
  return index + 1;
}

/** Leaves out the rest of the line, up to a brace that opens a block. */
function tooDeep(state: State, token: IToken, index: number): number {
  let at = index;
  let end = token.startOffset;
  for (let next = state.raw[at]; next !== undefined; next = state.raw[at]) {
    if ([T.Newline, T.LBrace, T.RBrace, T.Comment, T.Note].some((type) => type === next.tokenType)) break;
    end = endOf(next);
    at += 1;
  }
  state.problems.push({
    slug: "too-deep",
    span: spanOf(token),
    found: token.image,
    expected: [`at most ${deepest} levels`],
  });
  pushBroken(state, token.startOffset, end);
  return at;
}

function newline(state: State, token: IToken, index: number): number {
  state.fresh = true;
  state.afterBrace = false;
  state.braceEdits = undefined;
  if (last(state)?.tokenType !== T.Comma) {
    endStatement(state, token.startOffset);
    return index + 1;
  }
  if (index < state.carriedTo) return index + 1;
  const goesOn = continuation(state, index);
  if (goesOn === undefined) endStatement(state, token.startOffset);
  else state.carriedTo = goesOn;
  return index + 1;
}

function aside(state: State, token: IToken, index: number): number {
  const span = spanOf(token);
  if (token.tokenType === T.Comment) {
    state.comments.push({ kind: "comment", text: token.image, alone: state.fresh, span });
    return index + 1;
  }
  const text = token.image.slice(2).replace(/^[ \t]/, "");
  const note: Note = { kind: "note", text, span };
  const astray = !state.fresh || state.out.length > state.lineFrom;
  state.notes.push({ note, astray });
  if (astray) {
    state.problems.push({
      slug: "unreadable",
      span,
      found: shown(token.image),
      expected: ["a note on a line of its own before its statement"],
    });
  }
  state.fresh = false;
  return index + 1;
}
