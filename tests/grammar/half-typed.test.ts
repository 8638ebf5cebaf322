/**
 * While one word is half typed, everything else keeps its meaning: over all samples, every statement and every prefix of its
 * word, the share of the other statements that are still read as before.
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { type ShapedStatement, shape } from "../../grammar/shape.ts";
import type { Statement } from "../../grammar/tree.ts";
import { variedSamples } from "../varied-samples.ts";

const root = fileURLToPath(new URL("../../samples/", import.meta.url));
const texts = variedSamples.map((name) => [name, readFileSync(root + name, "utf8")] as const);

/** What a statement means to the shape: its block, its rule, and what stands in each slot, as text; by its own words. */
function meanings(text: string): Map<string, number> {
  const found = new Map<string, number>();
  const visit = (shaped: ShapedStatement, path: string): void => {
    const { statement, rule, block } = shaped;
    const slots = [...shaped.slots, ...shaped.clauses.flatMap((clause) => [...clause.slots])]
      .map(([name, items]) => `${name}=${items.map(({ span }) => text.slice(span.start, span.end)).join(" ")}`)
      .join(";");
    const key = `${path}/${block}:${rule?.word}(${slots})`;
    found.set(key, (found.get(key) ?? 0) + 1);
    for (const child of shaped.children)
      visit(child, `${path}/${statement.block === undefined ? "" : (rule?.block ?? "?")}`);
  };
  for (const statement of shape(parse(text).tree).statements) visit(statement, "");
  return found;
}

function statementsOf(statements: readonly Statement[]): Statement[] {
  return statements.flatMap((statement) => [statement, ...statementsOf(statement.block?.statements ?? [])]);
}

function keptShare(before: ReadonlyMap<string, number>, after: ReadonlyMap<string, number>): number {
  let total = -1; // The statement that is half typed itself.
  let kept = 0;
  for (const [key, count] of before) {
    total += count;
    kept += Math.min(count, after.get(key) ?? 0);
  }
  return Math.min(1, kept / total);
}

const shares: { readonly where: string; readonly share: number }[] = [];

describe.each(texts)("%s", (name, text) => {
  test("keeps at least nine statements in ten for any half-typed word", () => {
    const before = meanings(text);
    for (const { word } of statementsOf(parse(text).tree.statements)) {
      for (let length = 1; length < word.name.length; length += 1) {
        const typed = text.slice(0, word.span.start + length) + text.slice(word.span.end);
        const share = keptShare(before, meanings(typed));
        shares.push({ where: `${name}: ${word.name.slice(0, length)}`, share });
      }
    }
    const worst = shares.filter(({ where }) => where.startsWith(name)).sort((a, b) => a.share - b.share)[0];
    expect(worst?.share, worst?.where).toBeGreaterThanOrEqual(0.9);
  });
});

test("keeps at least 99 in 100 on average", () => {
  const average = shares.reduce((sum, { share }) => sum + share, 0) / shares.length;
  console.log(
    `half-typed words: ${shares.length} texts, ${(average * 100).toFixed(2)} % of statements kept on average`,
  );
  expect(shares.length).toBeGreaterThan(500);
  expect(average).toBeGreaterThanOrEqual(0.99);
});
