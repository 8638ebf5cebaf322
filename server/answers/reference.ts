/**
 * The reference pages as Markdown, made from the tables that read, reckon and judge, so that a page cannot say what the tool does
 * not do: the vocabulary, the findings with their limits, the reckonings of a worked example.
 */
import { blockRules, placeInWords } from "../../grammar/vocabulary/blocks.ts";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import type { BlockRule, StatementRule } from "../../grammar/vocabulary/rule.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";
import { rules } from "../findings/all.ts";
import type { Rule } from "../findings/finding.ts";
import { type LimitEntry, limitTable } from "../findings/limit-table.ts";
import { limitsOf } from "../findings/limits.ts";
import { reckoningMarkdown, ruleMarkdown, workedReckonings } from "./explain.ts";
import { basisText, limitValue } from "./limit-text.ts";
import { profileRows } from "./profile-text.ts";

/** Every block with its statements, every unit and function. */
export function vocabularyPage(): string {
  const shared = new Set(["let", "ask"]);
  const blocks = [...blockRules.values()].map((block) =>
    blockSection(block, block.name === "plan" ? new Set() : shared),
  );
  return `${[...blocks, unitSection(), functionSection()].join("\n\n")}\n`;
}

/** What the page of findings says of one of them. */
export function findingSection(rule: Rule): string {
  return lowered(ruleMarkdown(rule));
}

/** Every limit in a table, every profile in another, then every finding. */
export function findingsPage(): string {
  const rows = limitTable.map((entry: LimitEntry & (typeof limitTable)[number]) => {
    const limit = limitsOf([]).get(entry.name);
    return `| \`${entry.name}\` | ${cell(entry.title)} | ${limitValue(limit)} | ${cell(basisText(entry.basis))} | ${cell(entry.population ?? "")} |`;
  });
  const limits = ["| limit | of | default | basis | measured on |", "| --- | --- | --- | --- | --- |", ...rows].join(
    "\n",
  );
  const named = profileRows().map(({ name, limits: sets }) => `| \`${name}\` | ${cell(sets)} |`);
  const profiles = ["| profile | sets |", "| --- | --- |", ...named].join("\n");
  return `## Limits\n\n${limits}\n\n## Profiles of limits\n\n${profiles}\n\n## Findings\n\n${rules.map(findingSection).join("\n\n")}\n`;
}

/** Every reckoning of the worked example, in the order they are made. */
export function reckoningsPage(): string {
  return `${workedReckonings()
    .map((reckoning) => `## \`${reckoning.id}\`\n\n${reckoningMarkdown(reckoning)}`)
    .join("\n\n")}\n`;
}

function blockSection({ name, doc, statements }: BlockRule, leftOut: ReadonlySet<string>): string {
  const rows = statements.filter(({ word }) => !leftOut.has(word)).map(statementRow);
  const head = ["| statement | how often | meaning | example |", "| --- | --- | --- | --- |"];
  return [`### In ${placeInWords(name)}`, "", doc, "", ...head, ...rows].join("\n");
}

function statementRow({ word, times, doc, clauses, example }: StatementRule): string {
  const often = { one: "once, required", optional: "once at most", many: "any number" }[times];
  const parts = clauses.map(
    (clause) => `\`${clause.word}\`${clause.required === true ? " (required)" : ""}: ${clause.doc}`,
  );
  return `| \`${word}\` | ${often} | ${cell([doc, ...parts].join(" · "))} | \`${cell(example)}\` |`;
}

function unitSection(): string {
  const rows = [...unitWords].map(([word, { unit, dimension, doc }]) => {
    return `| \`${word}\` | ${dimension} | ${cell(word === unit ? doc : `Read as \`${unit}\`.`)} |`;
  });
  return ["### Units", "", "| unit | of | meaning |", "| --- | --- | --- |", ...rows].join("\n");
}

function functionSection(): string {
  const rows = [...functionWords.values()].map(({ signature, doc, example }) => {
    return `| \`${signature}\` | ${cell(doc)} | \`${cell(example)}\` |`;
  });
  return ["### Functions", "", "| function | gives | example |", "| --- | --- | --- |", ...rows].join("\n");
}

function lowered(markdown: string): string {
  return markdown.replace(/^# /, "### ");
}

function cell(text: string): string {
  return text.replaceAll("|", "\\|").replace(/\s+/g, " ");
}
