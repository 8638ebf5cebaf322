/**
 * What a word that is not known was meant for: the statement it resembles, the one whose braces would hold what stands in its own,
 * or the one that begins with a choice of this word. It looks at words alone; nothing is read here.
 */
import { choicesOf, meant } from "./shape-words.ts";
import type { Statement } from "./tree.ts";
import { rulesOf } from "./vocabulary/blocks.ts";
import type { StatementRule } from "./vocabulary/rule.ts";

export interface Meant {
  readonly rule: StatementRule;
  /** True when the word itself is right and the statement's word before it is what is missing. */
  readonly wordMissing: boolean;
}

type Rules = ReadonlyMap<string, StatementRule>;

/** The statement of a block that was meant; `taken` are words that stand there already. Undefined when nothing tells. */
export function meantBy(
  statement: Statement,
  block: string,
  taken: { readonly has: (word: string) => boolean },
): Meant | undefined {
  const rules = rulesOf(block);
  const { name } = statement.word;
  const opener = statement.block === undefined ? undefined : meantOpener(rules, statement, taken);
  if (opener !== undefined) return { rule: opener, wordMissing: false };
  const choosing = [...rules.values()].filter(({ slots: [slot] }) => slot && choicesOf(slot.part).includes(name));
  const [chosen] = choosing;
  if (chosen !== undefined && choosing.length === 1) return { rule: chosen, wordMissing: true };
  const rule = rules.get(meant(name, [...rules.keys()]) ?? "");
  return rule === undefined ? undefined : { rule, wordMissing: false };
}

/** The statement whose braces these are: one that the word resembles or begins, else one that most of the contents belong to. */
function meantOpener(
  rules: Rules,
  { word, block }: Statement,
  taken: { readonly has: (word: string) => boolean },
): StatementRule | undefined {
  const contents = block?.statements ?? [];
  const openers = [...rules.values()]
    .filter((rule) => rule.block !== undefined && (rule.times === "many" || !taken.has(rule.word)))
    .map((rule) => ({ rule, held: heldBy(contents, rule.block) }));
  const words = openers.map(({ rule }) => rule.word);
  const near = meant(word.name, words);
  const alike = openers.filter(({ rule }) => rule.word === near || rule.word.startsWith(word.name));
  const onlyAlike = alike.length === 1 && (contents.length === 0 || alike[0]?.held !== 0) ? alike[0] : undefined;
  const best = onlyAlike ?? mostHeld(alike) ?? mostHeld(openers.filter(({ held }) => held * 2 > contents.length));
  return best?.rule;
}

/** The one that holds more than all others. */
function mostHeld<T extends { readonly held: number }>(openers: readonly T[]): T | undefined {
  const [first, second] = [...openers].sort((a, b) => b.held - a.held);
  return first === undefined || first.held === 0 || first.held === second?.held ? undefined : first;
}

/** How many of these statements may stand in a block. */
function heldBy(statements: readonly Statement[], block: string | undefined): number {
  const rules = rulesOf(block ?? "");
  return statements.filter(({ word }) => rules.has(word.name)).length;
}
