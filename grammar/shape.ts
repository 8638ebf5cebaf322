/**
 * Reads a tree against the vocabulary: which rule each statement follows, what stands in its slots, and what is unknown, out of
 * place, missing or doubled. It knows no word of the language; what the values mean is left to the meaning.
 */
import type { Problem } from "./problems.ts";
import { type Meant, meantBy } from "./shape-meant.ts";
import { readLine } from "./shape-statement.ts";
import { beginsPhrase, changeWord, insert } from "./shape-words.ts";
import type { Shaped, ShapedStatement } from "./shaped.ts";
import type { Phrase, Span, Statement, Tree, Word } from "./tree.ts";
import { blockRules, blocksWith, outermostBlock, placeInWords, rulesOf } from "./vocabulary/blocks.ts";
import type { Alternatives, BlockRule, StatementRule } from "./vocabulary/rule.ts";

export type { Shaped, ShapedClause, ShapedStatement } from "./shaped.ts";

/** The statements of one block, or of the file, while they are read. */
interface Frame {
  readonly block: string;
  /** Undefined inside a word that is not known: nothing is expected there. */
  readonly rule: BlockRule | undefined;
  /** Where what is missing is shown. */
  readonly owner: Span;
  /** False when the closing brace is missing, so that what stands in the block is not sure. */
  readonly whole: boolean;
  /** Where each statement word first stood, misspelt ones under the word they resemble. */
  readonly seen: Map<string, Span>;
  /** Words that are not known and resemble none. */
  readonly strangers: Word[];
  readonly problems: Problem[];
}

const mostProblems = 200;

/** Reads every statement of the tree. Total: whatever stands in the tree, the rest is read as if it were not there. */
export function shape(tree: Tree): Shaped {
  const problems: Problem[] = [];
  const start = tree.statements[0]?.word.span ?? { start: tree.span.start, end: tree.span.start };
  const frame: Frame = {
    block: outermostBlock,
    rule: blockRules.get(outermostBlock),
    owner: start,
    whole: true,
    seen: new Map(),
    strangers: [],
    problems,
  };
  const statements = readBlock(frame, tree.statements);
  return { statements, problems: capped(problems) };
}

function readBlock(frame: Frame, statements: readonly Statement[]): readonly ShapedStatement[] {
  const shaped: ShapedStatement[] = [];
  let index = 0;
  for (let statement = statements[0]; statement !== undefined; statement = statements[index]) {
    const run = runAt(frame, statement, statements, index + 1);
    shaped.push(...readRun(frame, run, index));
    index += 1 + run.continued.length + run.inside.length;
  }
  if (frame.whole && frame.rule !== undefined) checkBlock(frame, frame.rule, statements);
  return shaped;
}

/** A statement and the lines after it that were meant to belong to it. */
interface Run {
  readonly statement: Statement;
  readonly rule: StatementRule | undefined;
  /** Clauses that stand as lines of their own, because a comma is missing before the line's end. */
  readonly continued: readonly Statement[];
  /** What was to stand in the statement's braces, which are missing. */
  readonly inside: readonly Statement[];
}

function runAt(frame: Frame, statement: Statement, statements: readonly Statement[], after: number): Run {
  const own = rulesOf(frame.block);
  const rule = own.get(statement.word.name);
  const continued: Statement[] = [];
  const inside: Statement[] = [];
  if (rule === undefined || statement.block !== undefined) return { statement, rule, continued, inside };
  const inner = rulesOf(rule.block ?? "");
  for (let index = after; index < statements.length; index += 1) {
    const next = statements[index];
    const word = next?.word.name ?? "";
    if (next === undefined || (own.has(word) && (inside.length === 0 || !inner.has(word)))) break;
    if (inner.has(word)) inside.push(next);
    else if (inside.length === 0 && lacksClause(rule, statement, continued, word)) continued.push(next);
    else break;
  }
  return { statement, rule, continued, inside };
}

/** Whether a clause of this word may stand and begins none of the lines. */
function lacksClause(
  rule: StatementRule,
  statement: Statement,
  continued: readonly Statement[],
  word: string,
): boolean {
  return (
    rule.clauses.some((clause) => clause.word === word) &&
    !beginsPhrase(statement, word) &&
    !continued.some((line) => line.word.name === word)
  );
}

function readRun(frame: Frame, run: Run, index: number): readonly ShapedStatement[] {
  const { statement, rule, continued } = run;
  if (rule === undefined) return [readStranger(frame, statement)];
  for (const line of continued) frame.problems.push(commaMissing(statement, line));
  const first = readStatement(frame, run, rule, index);
  return [first, ...continued.map((line) => stranger(frame, line, []))];
}

function readStatement(frame: Frame, run: Run, rule: StatementRule, index: number): ShapedStatement {
  const { statement, continued, inside } = run;
  const { word } = statement;
  const line = readLine(withPhrases(statement, continued), rule, inside.length > 0);
  if (!statement.broken) frame.problems.push(...line.problems);
  if (!statement.broken) checkPlace(frame, statement, rule, index);
  if (!frame.seen.has(word.name)) frame.seen.set(word.name, word.span);
  const children = readChildren(frame, statement, rule.block, inside);
  return { statement, rule, block: frame.block, slots: line.slots, clauses: line.clauses, children };
}

/** The statement with the lines that go on with it, each as the phrases it was meant to be. */
function withPhrases(statement: Statement, continued: readonly Statement[]): Statement {
  if (continued.length === 0) return statement;
  const more = continued.flatMap(({ word, phrases: [first, ...rest], span }): readonly Phrase[] => [
    { kind: "phrase", items: [word, ...(first?.items ?? [])], span },
    ...rest,
  ]);
  const block = continued.at(-1)?.block ?? statement.block;
  return { ...statement, block, phrases: [...statement.phrases, ...more] };
}

function commaMissing(statement: Statement, line: Statement): Problem {
  const { word } = line;
  const end = statement.phrases.at(-1)?.items.at(-1)?.span.end ?? statement.word.span.end;
  const repairs = [insert("Write a comma at the end of the line before", end, ",")];
  return { slug: "missing", span: word.span, expected: [","], inside: statement.word.name, repairs };
}

/** A word that has no place here. Where it tells what was meant, it is read as that, so that its contents keep their meaning. */
function readStranger(frame: Frame, statement: Statement): ShapedStatement {
  const { word } = statement;
  const elsewhere = blocksWith(word.name);
  const inner = blockElsewhere(elsewhere, word.name);
  if (elsewhere.length > 0 && (statement.block === undefined || inner !== undefined)) {
    if (!statement.broken) report(frame, misplaced(frame, word, elsewhere));
    return stranger(frame, statement, readChildren({ ...frame, whole: false }, statement, inner, []));
  }
  const meant = meantBy(statement, frame.block, frame.seen);
  if (!statement.broken) report(frame, unknown(frame, word, meant));
  if (meant === undefined) {
    frame.strangers.push(word);
    return stranger(frame, statement, readChildren(frame, statement, undefined, []));
  }
  const { rule, wordMissing } = meant;
  if (!frame.seen.has(rule.word)) frame.seen.set(rule.word, word.span);
  const { slots, clauses } = readLine(wordMissing ? withWord(statement, rule.word) : statement, rule);
  const children = readChildren(frame, statement, rule.block, []);
  return { statement, rule, block: frame.block, slots, clauses, children };
}

/** The statement as it reads with its word before it. */
function withWord(statement: Statement, name: string): Statement {
  const { word, phrases, span } = statement;
  const [first, ...rest] = phrases;
  const items = [word, ...(first?.items ?? [])];
  return { ...statement, word: { ...word, name }, phrases: [{ kind: "phrase", items, span }, ...rest] };
}

function stranger(frame: Frame, statement: Statement, children: readonly ShapedStatement[]): ShapedStatement {
  return { statement, rule: undefined, block: frame.block, slots: new Map(), clauses: [], children };
}

/** The block that a word opens where it may stand. */
function blockElsewhere(blocks: readonly string[], word: string): string | undefined {
  return blocks.map((block) => rulesOf(block).get(word)?.block).find((block) => block !== undefined);
}

function readChildren(
  frame: Frame,
  { block, word }: Statement,
  name: string | undefined,
  outside: readonly Statement[],
): readonly ShapedStatement[] {
  if (block === undefined && outside.length === 0) return [];
  return readBlock(
    {
      block: name ?? "",
      rule: name === undefined ? undefined : blockRules.get(name),
      owner: word.span,
      whole: frame.whole && block?.close !== undefined,
      seen: new Map(),
      strangers: [],
      problems: frame.problems,
    },
    block?.statements ?? outside,
  );
}

/** Inside a word that is not known nothing is told. */
function report(frame: Frame, problem: Problem): void {
  if (frame.rule !== undefined) frame.problems.push(problem);
}

function misplaced(frame: Frame, word: Word, blocks: readonly string[]): Problem {
  const expected = blocks.map(placeInWords);
  return { slug: "misplaced", span: word.span, found: word.name, expected, inside: frame.block };
}

function unknown(frame: Frame, word: Word, meant: Meant | undefined): Problem {
  const expected = [...rulesOf(frame.block).keys()];
  const problem: Problem = { slug: "unknown-word", span: word.span, found: word.name, expected, inside: frame.block };
  if (meant === undefined) return problem;
  const near = meant.rule.word;
  const write = insert(`Write \`${near}\` before it`, word.span.start, `${near} `);
  return { ...problem, near, repairs: [meant.wordMissing ? write : changeWord(word, near)] };
}

function checkPlace(frame: Frame, statement: Statement, rule: StatementRule, index: number): void {
  const { word, span } = statement;
  const also = frame.seen.get(word.name);
  const inside = frame.block;
  if (also !== undefined && rule.times !== "many") {
    const repairs = [{ title: "Take the second one away", edits: [{ span, text: "" }] }];
    frame.problems.push({ slug: "repeated", span: word.span, found: word.name, inside, also, repairs });
  } else if (rule.first === true && index > 0) {
    frame.problems.push({ slug: "misplaced", span: word.span, found: word.name, expected: ["the first line"], inside });
  }
}

/**
 * What the block as a whole lacks or has too much of. A line that is not known may be what is missing; only when more is missing
 * than there are such lines is anything told.
 */
function checkBlock(frame: Frame, rule: BlockRule, statements: readonly Statement[]): void {
  const missing = rule.statements
    .filter((statement) => statement.times === "one" && !frame.seen.has(statement.word))
    .map((statement) => missingStatement(frame, statement, statements[0]));
  const empty = statements.length === 0 && rule.statements.some((statement) => statement.first);
  if (rule.alternatives !== undefined && !empty) missing.push(...lackingWays(frame, rule.alternatives));
  if (missing.length > frame.strangers.length) frame.problems.push(...missing);
  if (rule.alternatives !== undefined) reportTooMany(frame, rule.alternatives);
}

function missingStatement(frame: Frame, rule: StatementRule, first: Statement | undefined): Problem {
  const problem: Problem = { slug: "missing", span: frame.owner, expected: [rule.word], inside: frame.block };
  if (rule.first !== true) return problem;
  const start = first?.notes[0]?.span.start ?? frame.owner.start;
  const line = first === undefined ? `${rule.example}\n` : `${rule.example}\n\n`;
  return { ...problem, expected: [rule.example], repairs: [insert(`Write \`${rule.example}\``, start, line)] };
}

function lackingWays(frame: Frame, { ways, needed }: Alternatives): readonly Problem[] {
  if (needed !== true || ways.flat().some((word) => frame.seen.has(word))) return [];
  const expected = ways.flatMap((way) => way.slice(0, 1));
  return [{ slug: "missing", span: frame.owner, expected, inside: frame.block }];
}

function reportTooMany(frame: Frame, { ways }: Alternatives): void {
  const written = ways
    .flatMap((way) => way.flatMap((word) => ({ word, span: frame.seen.get(word) })).slice(0, 1))
    .flatMap(({ word, span }) => (span === undefined ? [] : [{ word, span }]))
    .sort((a, b) => a.span.start - b.span.start);
  const expected = [`one of ${ways.map((way) => way[0]).join(", ")}`];
  for (const { word, span } of written.slice(1)) {
    frame.problems.push({ slug: "misplaced", span, found: word, expected, inside: frame.block });
  }
}

/** In the order of the text; past the limit the last one tells how many more there are. */
function capped(problems: Problem[]): readonly Problem[] {
  problems.sort((a, b) => a.span.start - b.span.start);
  const next = problems[mostProblems - 1];
  if (next === undefined || problems.length === mostProblems) return problems;
  const more = `${problems.length - mostProblems + 1} more places`;
  return [...problems.slice(0, mostProblems - 1), { slug: "unreadable", span: next.span, found: more }];
}
