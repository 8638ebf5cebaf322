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

/**
 * The rules are few and flat, and what every number passes through makes no closure of its own: parts that need none of a rule's
 * own variables are members, made once.
 */
class LineParser extends EmbeddedActionsParser {
  /** Where the present text's statements go. */
  maker = idle;

  constructor(skipValidations: boolean) {
    super([...tokenTable], { recoveryEnabled: true, maxLookahead: 1, skipValidations });
    this.performSelfAnalysis();
  }

  readonly #closing = () => {
    const brace = this.CONSUME(T.RBrace);
    this.CONSUME(T.Newline);
    if (!this.RECORDING_PHASE) this.maker.endClosing(brace);
  };

  readonly #lines = [{ ALT: () => this.SUBRULE(this.statement) }, { ALT: this.#closing }];

  readonly file = this.RULE("file", () => {
    this.MANY(() => this.OR(this.#lines));
  });

  readonly #furtherPhrase = () => {
    this.CONSUME(T.Comma);
    this.SUBRULE2(this.phrase);
  };

  readonly #brace = () => this.CONSUME(T.LBrace);

  readonly statement: () => void = this.RULE("statement", () => {
    const head = this.CONSUME(T.Head);
    if (!this.RECORDING_PHASE) this.maker.begin(head);
    this.SUBRULE(this.phrase);
    this.MANY(this.#furtherPhrase);
    const last = this.LA(0);
    const open = this.OPTION(this.#brace);
    this.CONSUME(T.Newline);
    if (!this.RECORDING_PHASE) this.maker.end(open, endOf(last));
  });

  readonly #misplaced = [
    ...[T.Broken, T.RParen, T.CallParen, T.Unit, T.PlusMinus, T.Plus, T.Star, T.Slash, T.To, T.By, T.On],
  ].map((type) => ({
    ALT: () => {
      const token = this.CONSUME9(type);
      if (!this.RECORDING_PHASE) this.maker.misplaced(token);
    },
  }));

  readonly #items = [
    { ALT: () => this.#range() },
    { ALT: () => this.maker.add(textOf(this.CONSUME(T.Text))) },
    { ALT: () => this.maker.add(codeOf(this.CONSUME(T.Code))) },
    { ALT: () => this.maker.add(dateOf(this.CONSUME(T.Date))) },
    { ALT: () => this.maker.add({ kind: "equals", span: spanOf(this.CONSUME(T.Equals)) }) },
    ...this.#misplaced,
  ];

  readonly #item = () => {
    this.OR(this.#items);
  };

  readonly phrase: () => void = this.RULE("phrase", () => {
    if (!this.RECORDING_PHASE) this.maker.beginPhrase(this.LA(1).startOffset);
    this.MANY(this.#item);
    if (!this.RECORDING_PHASE) this.maker.endPhrase(this.LA(0));
  });

  /** `A`, `A to B` or `A to B by C`. */
  #range(): void {
    const from = this.SUBRULE(this.expression);
    const rest = this.OPTION(this.#rangeEnd);
    if (this.RECORDING_PHASE) return;
    if (rest === undefined) this.maker.add(from);
    else this.maker.add({ kind: "range", from, ...rest, span: between(from.span, (rest.by ?? rest.to).span) });
  }

  readonly #rangeEnd = () => {
    this.CONSUME(T.To);
    const to = this.SUBRULE(this.awaited);
    const by = this.OPTION2(this.#step);
    return { to, by };
  };

  readonly #step = () => {
    this.CONSUME(T.By);
    return this.SUBRULE2(this.awaited);
  };

  readonly expression: () => Expression = this.RULE("expression", (): Expression => {
    const first = this.SUBRULE(this.operand);
    const rest = this.OPTION(this.#chain);
    if (rest === undefined || this.RECORDING_PHASE) return first;
    return joined([first, ...rest.operands], rest.operators);
  });

  readonly #operators = [T.Plus, T.Minus, T.Star, T.Slash].map((type) => ({ ALT: () => this.CONSUME(type) }));

  readonly #chain = () => {
    const operators: Operator[] = [];
    const operands: Expression[] = [];
    this.AT_LEAST_ONE(() => {
      operators.push(this.OR(this.#operators).image as Operator);
      operands.push(this.SUBRULE(this.awaitedOperand));
    });
    return { operators, operands };
  };

  /** An expression where one must stand; where none does, the phrase is spoilt. */
  readonly awaited: () => Expression = this.RULE(
    "awaited",
    (): Expression => this.OR([{ ALT: () => this.SUBRULE(this.expression) }, { ALT: () => this.#nothing() }]),
  );

  readonly awaitedOperand: () => Expression = this.RULE(
    "awaitedOperand",
    (): Expression => this.OR([{ ALT: () => this.SUBRULE(this.operand) }, { ALT: () => this.#nothing() }]),
  );

  readonly #unsigned: { ALT: () => Expression }[] = [
    { ALT: () => this.#quantity() },
    { ALT: () => this.#named() },
    { ALT: () => this.SUBRULE(this.group) },
  ];

  readonly #values = [...this.#unsigned, { ALT: () => this.SUBRULE(this.signed) }];

  readonly operand: () => Expression = this.RULE("operand", (): Expression => {
    const value = this.OR(this.#values);
    const view = this.OPTION(this.#view);
    if (view === undefined || this.RECORDING_PHASE) return value;
    return { kind: "reading", value, view: wordOf(view), span: { start: value.span.start, end: endOf(view) } };
  });

  readonly #view = () => {
    const on = this.CONSUME(T.On);
    const view = this.OPTION2(() => this.CONSUME(T.Word));
    if (view === undefined) this.#wanted("the name of a view", on);
    return view;
  };

  #quantity(): Expression {
    const number = this.CONSUME(T.Number);
    const unit = this.OPTION3(this.#unit);
    const half = this.OPTION4(this.#half);
    if (this.RECORDING_PHASE) return wordOf(number);
    return quantityOf({ number, unit, half: half?.number, halfUnit: half?.unit }, this.#fault);
  }

  readonly #unit = () => this.CONSUME(T.Unit);

  readonly #half = () => {
    const sign = this.CONSUME(T.PlusMinus);
    const number = this.OPTION5(() => this.CONSUME2(T.Number));
    const unit = this.OPTION6(() => this.CONSUME2(T.Unit));
    if (number === undefined) this.#wanted("a number behind the ±", sign);
    return { number, unit };
  };

  readonly #fault = (problem: Problem) => this.maker.fault(problem);

  #named(): Expression {
    const word = this.CONSUME2(T.Word);
    const given = this.OPTION7(this.#call);
    const name = wordOf(word);
    if (given === undefined) return name;
    return { kind: "call", name, arguments: given, span: { start: name.span.start, end: endOf(this.LA(0)) } };
  }

  readonly #call = () => {
    const given: Expression[] = [];
    this.CONSUME(T.CallParen);
    this.OPTION8(() => {
      given.push(this.SUBRULE(this.expression));
      this.MANY(() => {
        this.CONSUME(T.Comma);
        given.push(this.SUBRULE2(this.awaited));
      });
    });
    this.#close(this.OPTION9(() => this.CONSUME(T.RParen)));
    return given;
  };

  readonly group: () => Expression = this.RULE("group", (): Expression => {
    const open = this.CONSUME(T.LParen);
    const inner = this.SUBRULE(this.awaited);
    this.#close(this.OPTION(() => this.CONSUME(T.RParen)));
    return { kind: "group", inner, span: { start: open.startOffset, end: endOf(this.LA(0)) } };
  });

  readonly signed: () => Expression = this.RULE("signed", (): Expression => {
    const signs: IToken[] = [];
    this.AT_LEAST_ONE(() => {
      signs.push(this.OR([{ ALT: () => this.CONSUME(T.Sign) }, { ALT: () => this.CONSUME(T.Minus) }]));
    });
    const value = this.OR2([{ ALT: () => this.SUBRULE(this.unsigned) }, { ALT: () => this.#nothing() }]);
    if (this.RECORDING_PHASE) return value;
    return signs.reduceRight<Expression>((inner, sign) => {
      return { kind: "negated", inner, span: { start: sign.startOffset, end: inner.span.end } };
    }, value);
  });

  readonly unsigned: () => Expression = this.RULE("unsigned", (): Expression => this.OR(this.#unsigned));

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
