/**
 * Reads a statement whose word is misspelt or half typed, and told so, as the word that was meant: what stands in it, and in its
 * braces, keeps its meaning. Words that resemble nothing are left as they are.
 */
import type { Problem } from "../../grammar/problems.ts";
import { shape } from "../../grammar/shape.ts";
import { readLine } from "../../grammar/shape-statement.ts";
import type { Shaped, ShapedStatement } from "../../grammar/shaped.ts";
import type { Block, Statement } from "../../grammar/tree.ts";
import { rulesOf } from "../../grammar/vocabulary/blocks.ts";
import type { StatementRule } from "../../grammar/vocabulary/rule.ts";

/** The statements outside all braces, with every misspelt word below them mended. */
export function mended(shaped: Shaped): readonly ShapedStatement[] {
  const misspelt = new Map<number, Problem>();
  for (const problem of shaped.problems) {
    if (problem.slug === "unknown-word" || problem.slug === "misplaced") {
      misspelt.set(problem.span.start, problem);
    }
  }
  return misspelt.size === 0 ? shaped.statements : mendAll(shaped.statements, { misspelt, outer: [] });
}

interface Mending {
  readonly misspelt: ReadonlyMap<number, Problem>;
  /** Words of the blocks around, the outermost first. */
  readonly outer: readonly string[];
}

function mendAll(statements: readonly ShapedStatement[], mending: Mending): readonly ShapedStatement[] {
  return statements.map((statement) => mendOne(statement, mending));
}

function mendOne(shaped: ShapedStatement, mending: Mending): ShapedStatement {
  const { statement, block } = shaped;
  const problem = shaped.rule === undefined ? mending.misspelt.get(statement.word.span.start) : undefined;
  const near = problem?.near === undefined ? undefined : rulesOf(block).get(problem.near);
  const meant = near ?? (problem === undefined ? undefined : ruleByContent(shaped));
  const rule = shaped.rule ?? meant;
  const children =
    near === undefined && meant !== undefined ? childrenAs(meant, shaped, mending.outer) : shaped.children;
  const inner = { ...mending, outer: [...mending.outer, rule?.word ?? statement.word.name] };
  const mendedChildren = mendAll(children, inner);
  if (meant === undefined) {
    return { ...shaped, children: mendedChildren };
  }
  const { slots, clauses } = readLine(statement, meant);
  return { ...shaped, rule: meant, slots, clauses, children: mendedChildren };
}

/**
 * The block that what stands in the braces fits best: half typed, a word may begin two of them, or be a word of another block
 * (`ream` of `reamers`).
 */
function ruleByContent({ statement, block }: ShapedStatement): StatementRule | undefined {
  const typed = statement.word.name;
  const inside = statement.block?.statements ?? [];
  const fits = [...rulesOf(block).values()]
    .filter((rule) => rule.block !== undefined && rule.word.startsWith(typed))
    .map((rule) => ({ rule, count: inside.filter(({ word }) => rulesOf(rule.block ?? "").has(word.name)).length }))
    .sort((a, b) => b.count - a.count);
  const [best, second] = fits;
  return best === undefined || best.count === 0 || best.count === second?.count ? undefined : best.rule;
}

/** The statements inside, read as if the right word stood before the brace. */
function childrenAs(
  rule: StatementRule,
  { statement }: ShapedStatement,
  outer: readonly string[],
): readonly ShapedStatement[] {
  const named = withWord(statement, rule.word, statement.block);
  const wrapped = outer.reduceRight((inner, word) => withWord(statement, word, around(inner)), named);
  const { span } = statement;
  let shaped = shape({ kind: "tree", statements: [wrapped], comments: [], adrift: [], span }).statements;
  for (const _ of outer) {
    shaped = shaped[0]?.children ?? [];
  }
  return shaped[0]?.children ?? [];
}

function withWord(statement: Statement, name: string, block: Block | undefined): Statement {
  return { ...statement, word: { ...statement.word, name }, block };
}

function around(statement: Statement): Block {
  const { span } = statement;
  return { kind: "block", statements: [statement], open: span, close: span, adrift: [], span };
}
