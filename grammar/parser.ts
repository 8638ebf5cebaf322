/**
 * The grammar: one general statement, whose phrases hold items. The parser's own actions make the syntax nodes, so that no second
 * tree is built; blocks are put together elsewhere. An error costs its phrase: what was read before it in the statement stays.
 */
import { EmbeddedActionsParser, type IRecognitionException, type IToken, type TokenType } from "chevrotain";
import { shown } from "./characters.ts";
import { joined, type Operator } from "./expressions.ts";
import { readNumber } from "./numbers.ts";
import { numberProblem } from "./oddities.ts";
import type { Problem } from "./problems.ts";
import { readText } from "./texts.ts";
import { endOf, spanOf, T, tokenTable } from "./tokens.ts";
import type { Block, Expression, Item, NumberItem, Phrase, QuantityItem, Span, UnitItem, Word } from "./tree.ts";
import { unitWords } from "./vocabulary/units.ts";

/** A statement's line, its block not yet joined to it. */
export interface StatementLine {
  readonly kind: "statement";
  readonly word: Word;
  readonly phrases: readonly Phrase[];
  readonly open: Block["open"] | undefined;
  readonly span: Span;
  readonly broken: boolean;
}

export interface ClosingLine {
  readonly kind: "closing";
  readonly span: Span;
}

export type Line = StatementLine | ClosingLine;

/** What each token is called where it is missing; any other is a value. */
const labels: ReadonlyMap<TokenType, string> = new Map<TokenType, string>([
  [T.RParen, "a closing )"],
  [T.Word, "the name of a view"],
  [T.Number, "a number"],
]);

/** What should stand before a token that came too early. */
const wanting: ReadonlyMap<TokenType, string> = new Map<TokenType, string>([
  [T.Unit, "a number before its unit"],
  [T.RParen, "an opening ("],
  [T.PlusMinus, "a number before the ±"],
]);

class LineParser extends EmbeddedActionsParser {
  lines: Line[] = [];
  problems: Problem[] = [];
  /** Errors met, each of which spoilt its phrase. */
  rescues = 0;
  source = "";
  /** Offsets of the statements that have a problem already; one mistake is told once. */
  troubled: (span: Span) => boolean = () => false;

  #items: Item[] = [];
  #phrases: Phrase[] = [];
  #spoilt = false;
  /** How many items of the phrase stood before the mistake. */
  #sound = 0;
  #broken = false;
  #found: Problem | undefined;
  #phraseStart = 0;

  constructor() {
    super([...tokenTable], {
      recoveryEnabled: true,
      maxLookahead: 1,
      skipValidations: true,
      nodeLocationTracking: "none",
      errorMessageProvider: {
        buildMismatchTokenMessage: ({ expected }) => labels.get(expected) ?? "a value",
        buildNotAllInputParsedMessage: () => "a statement",
        buildNoViableAltMessage: () => "a value",
        buildEarlyExitMessage: () => "a value",
      },
    });
    this.performSelfAnalysis();
  }

  /** A token that is made up or left out could turn a mistake into another number: an error always costs its phrase. */
  protected override canTokenTypeBeInsertedInRecovery(): boolean {
    return false;
  }

  protected override canTokenTypeBeDeletedInRecovery(): boolean {
    return false;
  }

  readonly file = this.RULE("file", () => {
    this.MANY(() => {
      this.OR([
        { ALT: () => this.SUBRULE(this.statement) },
        {
          ALT: () => {
            const brace = this.CONSUME(T.RBrace);
            this.CONSUME(T.Newline);
            this.ACTION(() => this.lines.push({ kind: "closing", span: spanOf(brace) }));
          },
        },
      ]);
    });
  });

  readonly statement = this.RULE("statement", () => {
    const head = this.CONSUME(T.Head);
    this.#phrases = [];
    this.#broken = head.payload === "broken";
    this.#found = undefined;
    let end = endOf(head);
    this.SUBRULE(this.phrase);
    this.MANY(() => {
      this.CONSUME(T.Comma);
      this.SUBRULE2(this.phrase);
    });
    end = Math.max(end, endOf(this.LA(0)));
    const open = this.OPTION(() => this.CONSUME(T.LBrace));
    this.CONSUME(T.Newline);
    this.ACTION(() => this.#endStatement(head, open, end));
  });

  readonly phrase = this.RULE(
    "phrase",
    () => {
      this.#items = [];
      this.#spoilt = false;
      this.#phraseStart = this.LA(1).startOffset;
      this.MANY(() => this.SUBRULE(this.item));
      this.ACTION(() => this.#endPhrase());
    },
    { recoveryValueFunc: (error) => this.#rescue(error) },
  );

  #itemAlternatives: { ALT: () => unknown }[] | undefined;

  readonly item = this.RULE(
    "item",
    () => {
      this.#itemAlternatives ??= [
        { ALT: () => this.SUBRULE(this.range) },
        { ALT: () => this.#add(textItem(this.CONSUME(T.Text))) },
        { ALT: () => this.#add(plainItem("code", this.CONSUME(T.Code))) },
        { ALT: () => this.#add(plainItem("date", this.CONSUME(T.Date))) },
        { ALT: () => this.#add({ kind: "equals", span: spanOf(this.CONSUME(T.Equals)) }) },
        { ALT: () => this.#spoil(this.CONSUME(T.Broken)) },
        { ALT: () => this.#spoil(this.CONSUME(T.RParen)) },
        { ALT: () => this.#spoil(this.CONSUME(T.Unit)) },
        { ALT: () => this.#spoil(this.CONSUME(T.PlusMinus)) },
        { ALT: () => this.#spoil(this.CONSUME(T.Plus)) },
        { ALT: () => this.#spoil(this.CONSUME(T.Star)) },
        { ALT: () => this.#spoil(this.CONSUME(T.Slash)) },
        { ALT: () => this.#spoil(this.CONSUME(T.To)) },
        { ALT: () => this.#spoil(this.CONSUME(T.By)) },
        { ALT: () => this.#spoil(this.CONSUME(T.On)) },
      ];
      this.OR(this.#itemAlternatives);
    },
    { resyncEnabled: false },
  );

  readonly range = this.RULE(
    "range",
    () => {
      const from = this.SUBRULE(this.expression);
      let to: Expression | undefined;
      let by: Expression | undefined;
      this.OPTION(() => {
        this.CONSUME(T.To);
        to = this.SUBRULE2(this.expression);
        this.OPTION2(() => {
          this.CONSUME(T.By);
          by = this.SUBRULE3(this.expression);
        });
      });
      if (this.RECORDING_PHASE) return;
      this.#add(to === undefined ? from : { kind: "range", from, to, by, span: between(from, by ?? to) });
    },
    { resyncEnabled: false },
  );

  readonly expression: () => Expression = this.RULE(
    "expression",
    (): Expression => {
      const first = this.SUBRULE(this.operand);
      let operators: Operator[] | undefined;
      let operands: Expression[] | undefined;
      this.MANY(() => {
        const sign = this.OR([
          { ALT: () => this.CONSUME(T.Plus) },
          { ALT: () => this.CONSUME(T.Minus) },
          { ALT: () => this.CONSUME(T.Star) },
          { ALT: () => this.CONSUME(T.Slash) },
        ]);
        const next = this.SUBRULE2(this.operand);
        operators ??= [];
        operands ??= [first];
        operators.push(sign.image as Operator);
        operands.push(next);
      });
      if (operands === undefined || operators === undefined || this.RECORDING_PHASE) return first;
      return joined(operands, operators);
    },
    { resyncEnabled: false },
  );

  readonly operand: () => Expression = this.RULE(
    "operand",
    (): Expression => {
      let signs: IToken[] | undefined;
      this.MANY(() => {
        const sign = this.OR1([{ ALT: () => this.CONSUME(T.Sign) }, { ALT: () => this.CONSUME(T.Minus) }]);
        signs ??= [];
        signs.push(sign);
      });
      let value: Expression = this.SUBRULE(this.value);
      let view: IToken | undefined;
      this.OPTION(() => {
        this.CONSUME(T.On);
        view = this.CONSUME(T.Word);
      });
      if (this.RECORDING_PHASE) return value;
      for (const sign of signs?.reverse() ?? []) {
        value = { kind: "negated", inner: value, span: { start: sign.startOffset, end: value.span.end } };
      }
      if (view === undefined) return value;
      return { kind: "reading", value, view: wordOf(view), span: { start: value.span.start, end: endOf(view) } };
    },
    { resyncEnabled: false },
  );

  #valueAlternatives: { ALT: () => Expression }[] | undefined;

  readonly value: () => Expression = this.RULE(
    "value",
    (): Expression => {
      this.#valueAlternatives ??= [
        { ALT: () => this.SUBRULE(this.quantity) },
        { ALT: () => this.SUBRULE(this.named) },
        { ALT: () => this.SUBRULE(this.group) },
      ];
      return this.OR(this.#valueAlternatives);
    },
    { resyncEnabled: false },
  );

  readonly named: () => Expression = this.RULE(
    "named",
    (): Expression => {
      const word = this.CONSUME(T.Word);
      let given: readonly Expression[] | undefined;
      this.OPTION(() => {
        this.CONSUME(T.CallParen);
        given = this.SUBRULE(this.given);
        this.CONSUME(T.RParen);
      });
      const name = wordOf(word);
      if (given === undefined) return name;
      return { kind: "call", name, arguments: given, span: { start: name.span.start, end: endOf(this.LA(0)) } };
    },
    { resyncEnabled: false },
  );

  /** A rule of its own, so that nothing but the parenthesis can follow its repetition and nothing is skipped on the way. */
  readonly given: () => readonly Expression[] = this.RULE(
    "given",
    (): readonly Expression[] => {
      const all: Expression[] = [];
      this.OPTION(() => {
        all.push(this.SUBRULE(this.expression));
        this.MANY(() => {
          this.CONSUME(T.Comma);
          all.push(this.SUBRULE2(this.expression));
        });
      });
      return all;
    },
    { resyncEnabled: false },
  );

  readonly group: () => Expression = this.RULE(
    "group",
    (): Expression => {
      const open = this.CONSUME(T.LParen);
      const inner = this.SUBRULE(this.expression);
      const close = this.CONSUME(T.RParen);
      return { kind: "group", inner, span: { start: open.startOffset, end: endOf(close) } };
    },
    { resyncEnabled: false },
  );

  readonly quantity: () => Expression = this.RULE(
    "quantity",
    (): Expression => {
      const number = this.CONSUME(T.Number);
      const unit = this.OPTION(() => this.CONSUME(T.Unit));
      let half: IToken | undefined;
      let halfUnit: IToken | undefined;
      this.OPTION2(() => {
        this.CONSUME(T.PlusMinus);
        half = this.CONSUME2(T.Number);
        halfUnit = this.OPTION3(() => this.CONSUME2(T.Unit));
      });
      if (this.RECORDING_PHASE) return wordOf(number);
      return this.#quantity(number, unit, half, halfUnit);
    },
    { resyncEnabled: false },
  );

  #add(item: Item): void {
    this.#items.push(item);
  }

  #quantity(
    number: IToken,
    unit: IToken | undefined,
    half: IToken | undefined,
    halfUnit: IToken | undefined,
  ): QuantityItem {
    const own = unit === undefined ? undefined : unitOf(unit);
    const value = this.#number(number);
    if (half === undefined) {
      const span = own === undefined ? value.span : { start: value.span.start, end: own.span.end };
      return { kind: "quantity", number: value, unit: own, plusMinus: undefined, plusMinusUnit: undefined, span };
    }
    const plusMinus = this.#number(half);
    const shared = halfUnit === undefined ? undefined : unitOf(halfUnit);
    const span = { start: value.span.start, end: (shared ?? plusMinus).span.end };
    if (shared === undefined) this.#unitless(span, plusMinus.span.end, own);
    return { kind: "quantity", number: value, unit: own ?? shared, plusMinus, plusMinusUnit: shared, span };
  }

  /** A half-width needs its unit, for `10 mm ± 5` leaves open what the 5 is. */
  #unitless(span: Span, end: number, unit: UnitItem | undefined): void {
    const repairs = [{ title: `Add ${unit?.text}`, edits: [{ span: { start: end, end }, text: ` ${unit?.text}` }] }];
    const expected = ["a unit behind the number after the ±"];
    this.#fault({ slug: "unit-missing", span, expected, ...(unit !== undefined && { repairs }) });
  }

  #number(token: IToken): NumberItem {
    const span = spanOf(token);
    const read = readNumber(token.image);
    if (read.kind === "number") return { text: token.image, value: read.value, span };
    this.#fault(numberProblem(token.image, span));
    return { text: token.image, value: 0, span };
  }

  /** Marks the phrase as spoilt by a token that has no place in it. */
  #spoil(token: IToken): void {
    if (this.RECORDING_PHASE) return;
    this.#markSpoilt();
    if (token.tokenType === T.Broken) return;
    const expected = [wanting.get(token.tokenType) ?? `a value before ${token.image}`];
    this.#fault({ slug: "unreadable", span: spanOf(token), found: shown(token.image), expected });
  }

  #fault(problem: Problem): void {
    if (this.RECORDING_PHASE) return;
    this.#markSpoilt();
    this.#found ??= problem;
  }

  #markSpoilt(): void {
    if (!this.#spoilt) this.#sound = this.#items.length;
    this.#spoilt = true;
  }

  #rescue(error: IRecognitionException): void {
    this.rescues += 1;
    const atEnd = error.token.tokenType === T.Newline || error.token.tokenType === T.LBrace;
    const span = spanOf(atEnd ? previousOf(error) : error.token);
    const found = atEnd ? "the end of the line" : shown(error.token.image);
    this.#fault({ slug: "unreadable", span, found, expected: [error.message] });
    this.#endPhrase();
  }

  #endPhrase(): void {
    const previous = this.LA(0);
    const end = endOf(previous);
    const empty = this.#phraseStart >= end;
    const start = empty ? end : this.#phraseStart;
    if (empty && this.#phrases.length > 0) {
      this.#items = [{ kind: "broken", text: "", span: { start: end, end } }];
      this.#spoilt = true;
      this.#broken = true;
      this.#fault({
        slug: "unreadable",
        span: spanOf(previous),
        found: ",",
        expected: ["something behind the comma"],
        repairs: [{ title: "Take the comma away", edits: [{ span: spanOf(previous), text: "" }] }],
      });
    } else if (this.#spoilt) {
      this.#broken = true;
      this.#items = this.#kept(start, end);
    }
    this.#phrases.push({ kind: "phrase", items: this.#items, span: { start, end } });
  }

  /** Words and texts before the mistake stay; from the first value on the phrase is one broken stretch. */
  #kept(start: number, end: number): Item[] {
    const sound = this.#items.slice(0, this.#sound);
    const firstValue = sound.findIndex(({ kind }) => !["word", "text", "code", "date", "equals"].includes(kind));
    const kept = firstValue < 0 ? sound : sound.slice(0, firstValue);
    let from = kept.at(-1)?.span.end ?? start;
    while (from < end && /\s/.test(this.source[from] ?? "")) from += 1;
    return [...kept, { kind: "broken", text: this.source.slice(from, end), span: { start: from, end } }];
  }

  #endStatement(head: IToken, open: IToken | undefined, end: number): void {
    const opening = open === undefined ? undefined : spanOf(open);
    const span = { start: head.startOffset, end: opening?.end ?? end };
    if (this.#found !== undefined && !this.troubled(span)) this.problems.push(this.#found);
    this.lines.push({
      kind: "statement",
      word: wordOf(head),
      phrases: this.#phrases,
      open: opening,
      span,
      broken: this.#broken,
    });
  }
}

/** Chevrotain's errors know the token before the one they met, though the common type does not say so. */
function previousOf(error: IRecognitionException & { readonly previousToken?: IToken }): IToken {
  return error.previousToken ?? error.token;
}

function wordOf(token: IToken): Word {
  return { kind: "word", name: token.image, span: spanOf(token) };
}

function unitOf(token: IToken): UnitItem {
  return { text: token.image, unit: unitWords.get(token.image)?.unit ?? token.image, span: spanOf(token) };
}

function textItem(token: IToken): Item {
  const read = readText(token.image);
  const value = read.kind === "text" ? read.value : "";
  return { kind: "text", value, source: token.image, span: spanOf(token) };
}

function plainItem(kind: "code" | "date", token: IToken): Item {
  return { kind, text: token.image, span: spanOf(token) };
}

function between(from: Expression, to: Expression): Span {
  return { start: from.span.start, end: to.span.end };
}

/** One grammar, one instance: a second would slow both. */
const parser = new LineParser();

export interface LinesRead {
  readonly lines: readonly Line[];
  readonly problems: readonly Problem[];
  /** True when every error met is told or stands in a statement that has its problem already. */
  readonly accounted: boolean;
}

/** Reads tokens in line order; `troubled` says whether a problem is known already in a statement. */
export function readLines(source: string, tokens: IToken[], troubled: (span: Span) => boolean): LinesRead {
  parser.lines = [];
  parser.problems = [];
  parser.rescues = 0;
  parser.source = source;
  parser.troubled = troubled;
  parser.input = tokens;
  parser.file();
  const { lines, problems, rescues } = parser;
  const accounted = parser.errors.length === rescues;
  parser.lines = [];
  parser.problems = [];
  parser.source = "";
  parser.input = [];
  return { lines, problems, accounted };
}
