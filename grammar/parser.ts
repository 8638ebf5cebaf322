/**
 * The grammar: one general statement, whose phrases hold items. It is total: every order of tokens in a line has its place in it, and
 * a mistake is marked where it stands instead of being thrown, so that it costs its phrase, and the same time as any other
 * token. The parser's own actions make the syntax nodes; blocks are put together elsewhere.
 */
import { EmbeddedActionsParser, type IToken } from "chevrotain";
import { joined, type Operator } from "./expressions.ts";
import { codeOf, dateOf, quantityOf, textOf, wordOf } from "./items.ts";
import type { Problem } from "./problems.ts";
import { type Line, StatementMaker } from "./statement-maker.ts";
import { endOf, spanOf, T, tokenTable } from "./tokens.ts";
import type { Expression, Span } from "./tree.ts";

/** Holds no text: what stands in the parser between two texts. */
const idle = new StatementMaker("", () => false);

interface Alternative<Result> {
  ALT: () => Result;
}

class LineParser extends EmbeddedActionsParser {
  /** Where the present text's statements go. */
  maker = idle;

  constructor(skipValidations: boolean) {
    super([...tokenTable], { recoveryEnabled: true, maxLookahead: 1, skipValidations });
    this.performSelfAnalysis();
  }

  readonly file = this.RULE("file", () => {
    this.MANY(() => {
      this.OR([
        { ALT: () => this.SUBRULE(this.statement) },
        {
          ALT: () => {
            const brace = this.CONSUME(T.RBrace);
            this.CONSUME(T.Newline);
            this.ACTION(() => this.maker.endClosing(brace));
          },
        },
      ]);
    });
  });

  readonly statement = this.RULE("statement", () => {
    const head = this.CONSUME(T.Head);
    this.ACTION(() => this.maker.begin(head));
    this.SUBRULE(this.phrase);
    this.MANY(() => {
      this.CONSUME(T.Comma);
      this.SUBRULE2(this.phrase);
    });
    const last = this.LA(0);
    const open = this.OPTION(() => this.CONSUME(T.LBrace));
    this.CONSUME(T.Newline);
    this.ACTION(() => this.maker.end(open, endOf(last)));
  });

  readonly phrase = this.RULE("phrase", () => {
    const next = this.LA(1);
    this.ACTION(() => this.maker.beginPhrase(next.startOffset));
    this.MANY(() => this.SUBRULE(this.item));
    this.ACTION(() => this.maker.endPhrase(this.LA(0)));
  });

  /** The alternatives of a wide choice are made once. */
  #items: Alternative<unknown>[] | undefined;

  readonly item = this.RULE("item", () => {
    this.#items ??= [
      { ALT: () => this.SUBRULE(this.range) },
      { ALT: () => this.maker.add(textOf(this.CONSUME(T.Text))) },
      { ALT: () => this.maker.add(codeOf(this.CONSUME(T.Code))) },
      { ALT: () => this.maker.add(dateOf(this.CONSUME(T.Date))) },
      { ALT: () => this.maker.add({ kind: "equals", span: spanOf(this.CONSUME(T.Equals)) }) },
      ...[T.Broken, T.RParen, T.CallParen, T.Unit, T.PlusMinus, T.Plus, T.Star, T.Slash, T.To, T.By, T.On].map(
        (type) => ({ ALT: () => this.#misplaced(this.CONSUME(type)) }),
      ),
    ];
    this.OR(this.#items);
  });

  readonly range = this.RULE("range", () => {
    const from = this.SUBRULE(this.expression);
    let to: Expression | undefined;
    let by: Expression | undefined;
    this.OPTION(() => {
      this.CONSUME(T.To);
      to = this.SUBRULE(this.awaited);
      this.OPTION2(() => {
        this.CONSUME(T.By);
        by = this.SUBRULE2(this.awaited);
      });
    });
    if (this.RECORDING_PHASE) return;
    if (to === undefined) this.maker.add(from);
    else this.maker.add({ kind: "range", from, to, by, span: between(from.span, (by ?? to).span) });
  });

  readonly expression: () => Expression = this.RULE("expression", (): Expression => {
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
      const next = this.SUBRULE(this.awaitedOperand);
      operators ??= [];
      operands ??= [first];
      operators.push(sign.image as Operator);
      operands.push(next);
    });
    if (operands === undefined || operators === undefined || this.RECORDING_PHASE) return first;
    return joined(operands, operators);
  });

  /** An expression where one must stand; where none does, the phrase is spoilt. */
  readonly awaited: () => Expression = this.RULE(
    "awaited",
    (): Expression => this.OR([{ ALT: () => this.SUBRULE(this.expression) }, { ALT: () => this.#nothing() }]),
  );

  readonly awaitedOperand: () => Expression = this.RULE(
    "awaitedOperand",
    (): Expression => this.OR([{ ALT: () => this.SUBRULE(this.operand) }, { ALT: () => this.#nothing() }]),
  );

  readonly operand: () => Expression = this.RULE("operand", (): Expression => {
    const value = this.OR([{ ALT: () => this.SUBRULE(this.signed) }, { ALT: () => this.SUBRULE(this.value) }]);
    let view: IToken | undefined;
    this.OPTION(() => {
      const on = this.CONSUME(T.On);
      view = this.OPTION2(() => this.CONSUME(T.Word));
      if (view === undefined) this.#wanted("the name of a view", on);
    });
    if (view === undefined || this.RECORDING_PHASE) return value;
    return { kind: "reading", value, view: wordOf(view), span: { start: value.span.start, end: endOf(view) } };
  });

  readonly signed: () => Expression = this.RULE("signed", (): Expression => {
    const signs: IToken[] = [];
    this.AT_LEAST_ONE(() => {
      signs.push(this.OR([{ ALT: () => this.CONSUME(T.Sign) }, { ALT: () => this.CONSUME(T.Minus) }]));
    });
    const value = this.OR2([{ ALT: () => this.SUBRULE(this.value) }, { ALT: () => this.#nothing() }]);
    if (this.RECORDING_PHASE) return value;
    return signs.reduceRight<Expression>((inner, sign) => {
      return { kind: "negated", inner, span: { start: sign.startOffset, end: inner.span.end } };
    }, value);
  });

  #values: Alternative<Expression>[] | undefined;

  readonly value: () => Expression = this.RULE("value", (): Expression => {
    this.#values ??= [
      { ALT: () => this.SUBRULE(this.quantity) },
      { ALT: () => this.SUBRULE(this.named) },
      { ALT: () => this.SUBRULE(this.group) },
    ];
    return this.OR(this.#values);
  });

  readonly quantity: () => Expression = this.RULE("quantity", (): Expression => {
    const number = this.CONSUME(T.Number);
    const unit = this.OPTION(() => this.CONSUME(T.Unit));
    let half: IToken | undefined;
    let halfUnit: IToken | undefined;
    this.OPTION2(() => {
      const sign = this.CONSUME(T.PlusMinus);
      half = this.OPTION3(() => this.CONSUME2(T.Number));
      halfUnit = this.OPTION4(() => this.CONSUME2(T.Unit));
      if (half === undefined) this.#wanted("a number behind the ±", sign);
    });
    if (this.RECORDING_PHASE) return wordOf(number);
    return quantityOf({ number, unit, half, halfUnit }, (problem) => this.maker.fault(problem));
  });

  readonly named: () => Expression = this.RULE("named", (): Expression => {
    const word = this.CONSUME(T.Word);
    const given: Expression[] = [];
    let called = false;
    this.OPTION(() => {
      this.CONSUME(T.CallParen);
      called = true;
      this.OPTION2(() => {
        given.push(this.SUBRULE(this.expression));
        this.MANY(() => {
          this.CONSUME(T.Comma);
          given.push(this.SUBRULE2(this.awaited));
        });
      });
      this.#close(this.OPTION3(() => this.CONSUME(T.RParen)));
    });
    const name = wordOf(word);
    if (!called) return name;
    return { kind: "call", name, arguments: given, span: { start: name.span.start, end: endOf(this.LA(0)) } };
  });

  readonly group: () => Expression = this.RULE("group", (): Expression => {
    const open = this.CONSUME(T.LParen);
    const inner = this.SUBRULE(this.awaited);
    this.#close(this.OPTION(() => this.CONSUME(T.RParen)));
    return { kind: "group", inner, span: { start: open.startOffset, end: endOf(this.LA(0)) } };
  });

  #misplaced(token: IToken): void {
    if (!this.RECORDING_PHASE) this.maker.misplaced(token);
  }

  #wanted(what: string, before: IToken): void {
    if (!this.RECORDING_PHASE) this.maker.wanted(what, before, this.LA(1));
  }

  #close(paren: IToken | undefined): void {
    if (paren === undefined) this.#wanted("a closing )", this.LA(0));
  }

  /** Stands where a value is missing; never reaches the tree, for its phrase is spoilt. */
  #nothing(): Expression {
    const before = this.LA(0);
    this.#wanted("a value", before);
    return { kind: "word", name: "", span: { start: endOf(before), end: endOf(before) } };
  }
}

function between(from: Span, to: Span): Span {
  return { start: from.start, end: to.end };
}

/** One grammar, one instance: a second would slow both. */
const parser = new LineParser(true);

/** Builds the grammar with chevrotain's checks of it, which throw; for tests. */
export function checkGrammar(): void {
  new LineParser(false);
}

export interface LinesRead {
  readonly lines: readonly Line[];
  readonly problems: readonly Problem[];
  /** True when the grammar took every token; anything else is a fault of the grammar. */
  readonly whole: boolean;
}

/** Reads tokens in line order; `troubled` says whether a problem is known already in a statement. */
export function readLines(source: string, tokens: IToken[], troubled: (span: Span) => boolean): LinesRead {
  const maker = new StatementMaker(source, troubled);
  parser.maker = maker;
  parser.input = tokens;
  parser.file();
  const whole = parser.errors.length === 0;
  parser.input = [];
  parser.maker = idle;
  return { lines: maker.lines, problems: maker.problems, whole };
}
