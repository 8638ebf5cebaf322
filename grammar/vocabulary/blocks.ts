/**
 * The tables together: which statements may stand in which block, and the questions asked of them. What a statement looks like
 * stands in the table of its block.
 */
import { aftercareRule, removalRule } from "./aftercare.ts";
import { caseRule } from "./case.ts";
import { catalogueRule, nailRule, reamersRule, screwsRule } from "./catalogue.ts";
import { fileRule } from "./file.ts";
import { imagesRule, measuresRule } from "./measures.ts";
import { planRule } from "./plan.ts";
import { protocolRule } from "./protocol.ts";
import type { BlockRule, StatementRule } from "./rule.ts";
import { askRule, letRule, questionRule } from "./shared.ts";
import { achievedRule, fallbackRule, operationRule } from "./steps.ts";

/** Named values and questions may stand in all of these. */
const ordinaryBlocks: readonly BlockRule[] = [
  planRule,
  caseRule,
  imagesRule,
  measuresRule,
  operationRule,
  fallbackRule,
  achievedRule,
  aftercareRule,
  removalRule,
  catalogueRule,
  nailRule,
  screwsRule,
  reamersRule,
  protocolRule,
];

/** The block that a file is: what stands outside all braces. */
export const outermostBlock = fileRule.name;

/** Every block by name; "file" is what stands outside all braces. */
export const blockRules: ReadonlyMap<string, BlockRule> = new Map(
  [fileRule, ...ordinaryBlocks.map(withShared), questionRule].map((block) => [block.name, block]),
);

const statementsOf: ReadonlyMap<string, ReadonlyMap<string, StatementRule>> = new Map(
  [...blockRules.values()].map((block) => [block.name, new Map(block.statements.map((rule) => [rule.word, rule]))]),
);

const nothing: ReadonlyMap<string, StatementRule> = new Map();

/** The statements of a block by word; empty for a block that does not exist. */
export function rulesOf(block: string): ReadonlyMap<string, StatementRule> {
  return statementsOf.get(block) ?? nothing;
}

/** The rule of a statement in a block, or undefined when that word has no place there. */
export function statementRule(block: string, word: string): StatementRule | undefined {
  return rulesOf(block).get(word);
}

/** Names of the blocks a statement may stand in, in the order of the tables. */
export function blocksWith(word: string): readonly string[] {
  return [...statementsOf].filter(([, rules]) => rules.has(word)).map(([name]) => name);
}

/** Where a block's statements stand, for a reader: the block's own word, or the top of the file. */
export function placeInWords(block: string): string {
  return block === outermostBlock ? "the top of the file" : block;
}

function withShared(block: BlockRule): BlockRule {
  return { ...block, statements: [...block.statements, letRule, askRule] };
}
