/**
 * The one table of tokens, the lexer made from it, and the plain list of tokens that editor features read. Units and the words
 * `to`, `by`, `on` are ordinary words to the lexer and told apart afterwards. What a line of tokens means is not known here.
 */
import { createToken, type IToken, Lexer, type TokenType } from "chevrotain";
import { byteOrderMark } from "./characters.ts";
import { closedText, openText } from "./texts.ts";
import type { Span } from "./tree.ts";
import { unitWords } from "./vocabulary/units.ts";

function token(name: string, pattern: RegExp | string): TokenType {
  return createToken({ name, pattern });
}

/** A token that no pattern makes: words are told apart and lines are put in order after the lexer. */
function made(name: string): TokenType {
  return createToken({ name, pattern: Lexer.NA });
}

const codeTail = "(?:\\.\\d+)?\\*?)?(?:\\([A-Za-z0-9]+(?:,[A-Za-z0-9]+)*\\))?(?:\\[[A-Za-z0-9]+(?:,[A-Za-z0-9]+)*\\])?";
const boundary = "(?![A-Za-z0-9])";

/** A further group of digits, set apart by a sign that is no part of a number here, or by a blank before just three digits. */
const apart = "(?:[,'’_]\\d+|[ \\u00a0\\u2007\\u2009\\u202f]\\d{3}(?!\\d))";

const word = /[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*/;
const wordAlone = new RegExp(`^${word.source}$`);

/** Whether a text has the form of one word; a unit or an operator has it too. */
export function isWord(text: string): boolean {
  return wordAlone.test(text);
}

const odd = /[!$&';:<>?@[\]\\^_`|~.\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u00af\u00b2-\uffff]+/;

/**
 * What an odd stretch can begin with. The lexer looks letters beyond Latin-1 up by the hundred, so every sixteenth of them stands for
 * all; trying each of 65,536 would take longer than reading a whole plan.
 */
function oddStarts(): string[] {
  const latin = Array.from({ length: 256 }, (_, code) => String.fromCharCode(code)).filter((each) => odd.test(each));
  const further = Array.from({ length: (0x10000 - 0x100) / 16 }, (_, at) => String.fromCharCode(0x100 + 16 * at));
  return [...latin, ...further, "\uffff"];
}

/** Unicode line and paragraph separators do not end a line: `.` is never used, and every range is spelt out. */
export const T = {
  Space: createToken({ name: "Space", pattern: /[ \t]+/, group: Lexer.SKIPPED }),
  Newline: token("Newline", /\r\n|\n|\r/),
  Word: token("Word", word),
  /** By far the most numbers stand before a blank and a unit; this spares them the three patterns after it. */
  PlainNumber: token("PlainNumber", /\d+(?:\.\d+)?(?= [^\d ])/),
  Date: token("Date", /\d{4}-\d{2}-\d{2}(?![A-Za-z0-9])/),
  Code: token("Code", new RegExp(`(?:\\d{2}-?|\\d[FRU]\\d)[A-C](?:\\d${codeTail}${boundary}`)),
  OddNumber: token(
    "OddNumber",
    new RegExp(`\\d+(?:(?:\\.\\d+)?${apart}(?:\\.\\d+|${apart})*|(?:\\.\\d+){2,}${apart}?)`),
  ),
  Number: token("Number", /\d+(?:\.\d+)?(?:[eE][+-]?\d+)?/),
  Comma: token("Comma", ","),
  PlusMinus: token("PlusMinus", /±|\+-/),
  Minus: token("Minus", "-"),
  Plus: token("Plus", "+"),
  Star: token("Star", "*"),
  Slash: token("Slash", "/"),
  Equals: token("Equals", "="),
  LParen: token("LParen", "("),
  RParen: token("RParen", ")"),
  LBrace: token("LBrace", "{"),
  RBrace: token("RBrace", "}"),
  UnitSign: token("UnitSign", /[%°]/),
  Note: token("Note", /##(?!#)[^\r\n]*/),
  Comment: token("Comment", /#[^\r\n]*/),
  Text: token("Text", closedText),
  OpenText: token("OpenText", openText),
  OddText: token("OddText", /[“”„«][^“”„«»"\\\r\n]*[“”»]|'[^'"\\\r\n]*'/),
  Odd: createToken({ name: "Odd", pattern: odd, start_chars_hint: oddStarts() }),
  Unit: made("Unit"),
  To: made("To"),
  By: made("By"),
  On: made("On"),
  Head: made("Head"),
  Sign: made("Sign"),
  CallParen: made("CallParen"),
  Broken: made("Broken"),
} as const satisfies Record<string, TokenType>;

/** In the order in which they are tried. */
export const tokenTable: readonly TokenType[] = Object.values(T);

/** Checks of the table run in a test; the product skips them. */
export function makeLexer(skipValidations: boolean): Lexer {
  return new Lexer([...tokenTable], {
    positionTracking: "onlyOffset",
    ensureOptimizations: true,
    skipValidations,
  });
}

const lexer = makeLexer(true);

const operatorWords: ReadonlyMap<string, TokenType> = new Map([
  ["to", T.To],
  ["by", T.By],
  ["on", T.On],
]);

/** Units and operators by word. */
const reserved: ReadonlyMap<string, TokenType> = new Map([
  ...[...unitWords.keys()].map((word): [string, TokenType] => [word, T.Unit]),
  ...operatorWords,
]);

/** All tokens as the lexer makes them, comments, notes and line ends among them. Total: every character but blanks is in one. */
export function scan(text: string): readonly IToken[] {
  const plain = text.startsWith(byteOrderMark) ? ` ${text.slice(1)}` : text;
  return lexer.tokenize(plain).tokens;
}

/** The type of a word's token where a statement goes on: a unit, `to`, `by`, `on` or a plain word. */
export function typeOfWord(word: string): TokenType {
  return reserved.get(word) ?? T.Word;
}

export function retype(token: IToken, type: TokenType): void {
  token.tokenType = type;
  token.tokenTypeIdx = type.tokenTypeIdx ?? 0;
}

/** A token that the lexer did not make, of the same shape as those it makes. */
export function madeToken(type: TokenType, image: string, startOffset: number): IToken {
  return { image, startOffset, tokenTypeIdx: type.tokenTypeIdx ?? 0, tokenType: type };
}

export function endOf(token: IToken): number {
  return token.startOffset + token.image.length;
}

export function spanOf(token: IToken): Span {
  return { start: token.startOffset, end: token.startOffset + token.image.length };
}

export type LexKind =
  | "word"
  | "unit"
  | "operator-word"
  | "number"
  | "text"
  | "code"
  | "date"
  | "operator"
  | "punctuation"
  | "comment"
  | "note"
  | "newline"
  | "odd";

export interface LexToken {
  readonly kind: LexKind;
  readonly span: Span;
  readonly text: string;
}

/** Every token with its place, in order; blanks lie between them. The first word of a line is never a unit or an operator. */
export function lex(text: string): readonly LexToken[] {
  let first = true;
  return scan(text).map((token) => {
    const kind = first && token.tokenType === T.Word ? "word" : kindOf(token);
    first = token.tokenType === T.Newline;
    return { kind, span: spanOf(token), text: token.image };
  });
}

const kinds: ReadonlyMap<TokenType, LexKind> = new Map<TokenType, LexKind>([
  [T.Newline, "newline"],
  [T.Date, "date"],
  [T.Code, "code"],
  [T.Number, "number"],
  [T.PlainNumber, "number"],
  [T.Text, "text"],
  [T.UnitSign, "unit"],
  [T.Note, "note"],
  [T.Comment, "comment"],
  [T.Comma, "punctuation"],
  [T.LParen, "punctuation"],
  [T.RParen, "punctuation"],
  [T.LBrace, "punctuation"],
  [T.RBrace, "punctuation"],
  [T.OddNumber, "odd"],
  [T.OddText, "odd"],
  [T.OpenText, "text"],
  [T.Odd, "odd"],
]);

function kindOf(token: IToken): LexKind {
  if (token.tokenType !== T.Word) return kinds.get(token.tokenType) ?? "operator";
  if (unitWords.has(token.image)) return "unit";
  return operatorWords.has(token.image) ? "operator-word" : "word";
}
