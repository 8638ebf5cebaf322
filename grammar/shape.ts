/**
 * Reads a tree against the vocabulary: which rule each statement follows, what stands in its slots, and what is unknown, out of
 * place, missing or doubled. It knows no word of the language; what the values mean is left to the meaning.
 */
import type { Problem } from "./problems.ts";
import { readLine } from "./shape-statement.ts";
import { changeWord, insert, meant } from "./shape-words.ts";
import type { Shaped, ShapedStatement } from "./shaped.ts";
import type { Span, Statement, Tree, Word } from "./tree.ts";
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
  readonly problems: Problem[];
}

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
    problems,
  };
  const statements = readBlock(frame, tree.statements);
  return { statements, problems: problems.sort((a, b) => a.span.start - b.span.start) };
}

function readBlock(frame: Frame, statements: readonly Statement[]): readonly ShapedStatement[] {
  const shaped = statements.map((statement, index) => readStatement(frame, statement, index));
  if (frame.whole && frame.rule !== undefined) checkBlock(frame, frame.rule, statements);
  return shaped;
}

function readStatement(frame: Frame, statement: Statement, index: number): ShapedStatement {
  const { word } = statement;
  const rule = rulesOf(frame.block).get(word.name);
  if (rule === undefined) return readStranger(frame, statement);
  const line = readLine(statement, rule);
  if (!statement.broken) {
    frame.problems.push(...line.problems);
    checkPlace(frame, statement, rule, index);
  }
  if (!frame.seen.has(word.name)) frame.seen.set(word.name, word.span);
  const children = readChildren(frame, statement, rule.block);
  return { statement, rule, block: frame.block, slots: line.slots, clauses: line.clauses, children };
}

/** A word that has no place here. With braces it is read as the block it was meant to open, so that its contents keep their meaning. */
function readStranger(frame: Frame, statement: Statement): ShapedStatement {
  const { word } = statement;
  const known = [...rulesOf(frame.block).keys()];
  const elsewhere = blocksWith(word.name);
  const opener = elsewhere.length > 0 ? undefined : meantBlock(frame, statement);
  const near = elsewhere.length > 0 ? undefined : (opener?.word ?? meant(word.name, known));
  if (frame.rule !== undefined && !statement.broken) {
    frame.problems.push(elsewhere.length > 0 ? misplaced(frame, word, elsewhere) : unknown(frame, word, known, near));
  }
  if (near !== undefined && !frame.seen.has(near)) frame.seen.set(near, word.span);
  const block = opener?.block ?? blockElsewhere(elsewhere, word.name);
  const children = readChildren(frame, statement, block);
  const line = opener === undefined ? undefined : readLine(statement, opener);
  const slots = line?.slots ?? new Map();
  return { statement, rule: opener, block: frame.block, slots, clauses: line?.clauses ?? [], children };
}

/** The block statement a mistyped or half-typed word was meant for: what it resembles, else what its contents belong to. */
function meantBlock(frame: Frame, { word, block }: Statement): StatementRule | undefined {
  if (block === undefined) return undefined;
  const rules = rulesOf(frame.block);
  const openers = [...rules.values()].filter((rule) => rule.block !== undefined && !frame.seen.has(rule.word));
  const near = meant(
    word.name,
    openers.map((rule) => rule.word),
  );
  const resembling = rules.get(near ?? "") ?? openers.find((rule) => rule.word.startsWith(word.name));
  const counts = new Map(openers.map((rule) => [rule, contentsIn(block.statements, rule.block)]));
  const best = openers.reduce<StatementRule | undefined>((most, rule) => {
    return (counts.get(rule) ?? 0) > (most === undefined ? 0 : (counts.get(most) ?? 0)) ? rule : most;
  }, undefined);
  if (resembling !== undefined && (best === undefined || (counts.get(resembling) ?? 0) > 0)) return resembling;
  return best !== undefined && (counts.get(best) ?? 0) * 2 > block.statements.length ? best : undefined;
}

/** How many of these statements may stand in a block. */
function contentsIn(statements: readonly Statement[], block: string | undefined): number {
  const rules = rulesOf(block ?? "");
  return statements.filter(({ word }) => rules.has(word.name)).length;
}

/** The block that a word opens where it may stand. */
function blockElsewhere(blocks: readonly string[], word: string): string | undefined {
  return blocks.map((block) => rulesOf(block).get(word)?.block).find((block) => block !== undefined);
}

function readChildren(frame: Frame, statement: Statement, name: string | undefined): readonly ShapedStatement[] {
  const { block, word } = statement;
  if (block === undefined) return [];
  return readBlock(
    {
      block: name ?? "",
      rule: name === undefined ? undefined : blockRules.get(name),
      owner: word.span,
      whole: block.close !== undefined,
      seen: new Map(),
      problems: frame.problems,
    },
    block.statements,
  );
}

function misplaced(frame: Frame, word: Word, blocks: readonly string[]): Problem {
  const expected = blocks.map(placeInWords);
  return { slug: "misplaced", span: word.span, found: word.name, expected, inside: frame.block };
}

function unknown(frame: Frame, word: Word, expected: readonly string[], near: string | undefined): Problem {
  const problem: Problem = { slug: "unknown-word", span: word.span, found: word.name, expected, inside: frame.block };
  return near === undefined ? problem : { ...problem, near, repairs: [changeWord(word, near)] };
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

/** What the block as a whole lacks or has too much of. */
function checkBlock(frame: Frame, rule: BlockRule, statements: readonly Statement[]): void {
  for (const statement of rule.statements) {
    if (statement.times === "one" && !frame.seen.has(statement.word)) reportMissing(frame, statement, statements[0]);
  }
  const empty = statements.length === 0 && rule.statements.some((statement) => statement.first);
  if (rule.alternatives !== undefined && !empty) checkAlternatives(frame, rule.alternatives);
}

function reportMissing(frame: Frame, rule: StatementRule, first: Statement | undefined): void {
  const problem: Problem = { slug: "missing", span: frame.owner, expected: [rule.word], inside: frame.block };
  if (rule.first !== true) {
    frame.problems.push(problem);
    return;
  }
  const start = first?.notes[0]?.span.start ?? frame.owner.start;
  const repairs = [
    insert(`Write \`${rule.example}\``, start, first === undefined ? `${rule.example}\n` : `${rule.example}\n\n`),
  ];
  frame.problems.push({ ...problem, expected: [rule.example], repairs });
}

function checkAlternatives(frame: Frame, { ways, needed }: Alternatives): void {
  const written = ways
    .flatMap((way) => {
      const word = way.find((one) => frame.seen.has(one));
      const span = word === undefined ? undefined : frame.seen.get(word);
      return word === undefined || span === undefined ? [] : [{ word, span }];
    })
    .sort((a, b) => a.span.start - b.span.start);
  const [first, ...others] = written;
  if (first === undefined && needed === true) {
    const expected = ways.flatMap((way) => way.slice(0, 1));
    frame.problems.push({ slug: "missing", span: frame.owner, expected, inside: frame.block });
  }
  for (const { word, span } of others) {
    const also = first?.span ?? span;
    frame.problems.push({ slug: "repeated", span, found: word, inside: frame.block, also });
  }
}
