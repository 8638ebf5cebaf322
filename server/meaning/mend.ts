/**
 * Reads a statement whose word is misspelt, and told so, as the word that was probably meant: what stands in it, and in its
 * braces, keeps its meaning. Words that resemble nothing are left as they are.
 */
import type { Problem } from "../../grammar/problems.ts";
import { readLine } from "../../grammar/shape-statement.ts";
import type { Shaped, ShapedStatement } from "../../grammar/shaped.ts";
import { rulesOf } from "../../grammar/vocabulary/blocks.ts";

/** The statements outside all braces, with every misspelt word below them mended. */
export function mended(shaped: Shaped): readonly ShapedStatement[] {
  const misspelt = new Map<number, Problem>();
  for (const problem of shaped.problems) {
    if (problem.slug === "unknown-word" && problem.near !== undefined) {
      misspelt.set(problem.span.start, problem);
    }
  }
  return misspelt.size === 0 ? shaped.statements : mendAll(shaped.statements, misspelt);
}

function mendAll(
  statements: readonly ShapedStatement[],
  misspelt: ReadonlyMap<number, Problem>,
): readonly ShapedStatement[] {
  return statements.map((statement) => mendOne(statement, misspelt));
}

function mendOne(shaped: ShapedStatement, misspelt: ReadonlyMap<number, Problem>): ShapedStatement {
  const children = mendAll(shaped.children, misspelt);
  const near = shaped.rule === undefined ? misspelt.get(shaped.statement.word.span.start)?.near : undefined;
  const rule = near === undefined ? undefined : rulesOf(shaped.block).get(near);
  if (rule === undefined) {
    return { ...shaped, children };
  }
  const { slots, clauses } = readLine(shaped.statement, rule);
  return { ...shaped, rule, slots, clauses, children };
}
