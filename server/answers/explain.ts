/**
 * Explains a finding, a limit, a profile, a reckoning, a word, a unit or a function as Markdown, from the same data that judges,
 * reckons and reads. The command line prints it, hovers show parts of it.
 */
import { nearest } from "../../grammar/nearest.ts";
import { blockRules } from "../../grammar/vocabulary/blocks.ts";
import { functionWords } from "../../grammar/vocabulary/functions.ts";
import type { StatementRule } from "../../grammar/vocabulary/rule.ts";
import { unitWords } from "../../grammar/vocabulary/units.ts";
import { rules } from "../findings/all.ts";
import { exampleDocument } from "../findings/example.ts";
import type { Example, Rule } from "../findings/finding.ts";
import { limitTable } from "../findings/limit-table.ts";
import { limitsOf } from "../findings/limits.ts";
import { profiles } from "../findings/profiles.ts";
import { unit } from "../quantity/units.ts";
import type { Reckoning } from "../reckoning/reckoning.ts";
import { analyse } from "./analyse.ts";
import { basisText, limitMarkdown, limitSetting, limitValue } from "./limit-text.ts";
import { code, plain, sections } from "./markdown.ts";
import { profileMarkdown } from "./profile-text.ts";
import { unitMarkdown } from "./unit-text.ts";
import { budgetLines } from "./why.ts";
import { answerText } from "./wording.ts";

/** Everything known under `term`, one part a meaning; undefined when nothing is. */
export function explain(term: string): string | undefined {
  const parts = [
    ruleOf(term),
    limitOf(term),
    profileMarkdown(term),
    reckoningOf(term),
    ...wordParts(term),
    unitPart(term),
    functionPart(term),
  ];
  const told = parts.filter((part) => part !== undefined);
  return told.length === 0 ? undefined : `${sections(told)}\n`;
}

type Explainable = "findings" | "limits" | "profiles" | "reckonings" | "words";

/** What can be explained, by kind, in the order of the tables. */
export function explainable(): Readonly<Record<Explainable, readonly string[]>> {
  return {
    findings: rules.map(({ slug }) => slug),
    limits: limitTable.map(({ name }) => name),
    profiles: profiles.map(({ name }) => name),
    reckonings: [...workedExample().keys()],
    words: [...new Set([...blockRules.values()].flatMap(({ statements }) => statements.map(({ word }) => word)))],
  };
}

export function nearestTerm(term: string): string | undefined {
  return nearest(term, Object.values(explainable()).flat());
}

export function ruleMarkdown(rule: Rule): string {
  const lines = [`# ${rule.title}`, `\`${rule.slug}\` · ${rule.grade}`, rule.why];
  if (rule.kind === "plan" && rule.limits.length > 0) {
    lines.push(`Limits: ${rule.limits.map((name) => limitLine(name)).join("; ")}.`);
  }
  lines.push(`Basis: ${basisText(rule.basis)}.`);
  if (rule.population !== undefined) lines.push(`Measured on: ${rule.population}.`);
  lines.push(`Wrong:\n\n${fenced(rule.wrong, rule.right)}`, `Right:\n\n${fenced(rule.right, rule.wrong)}`);
  return lines.join("\n\n");
}

/** The number, how it is made with its numbers filled in, where its uncertainty comes from, and what it rests on. */
export function reckoningMarkdown(reckoning: Reckoning): string {
  const { answer, label, formula, filled, remark, id, basis } = reckoning;
  const lines = [`**${plain(label)}**: ${plain(answerText(reckoning))}`];
  if (answer.kind !== "unknown") lines.push(`\`${formula}\`  \n= \`${filled}\``);
  const budget = budgetLines(reckoning);
  if (budget.length > 0) lines.push(budget.map((line) => `- ${plain(line)}`).join("\n"));
  if (remark !== undefined) lines.push(plain(remark));
  lines.push(`\`${id}\` · ${plain(basisText(basis))}`);
  return lines.join("\n\n");
}

export function statementMarkdown(rule: StatementRule): string {
  const clauses = rule.clauses.map(({ word, doc }) => `- \`${word}\`: ${doc}`);
  return [
    `**${rule.word}**: ${rule.doc}`,
    ...(clauses.length > 0 ? [clauses.join("\n")] : []),
    code(rule.example),
  ].join("\n\n");
}

export function functionMarkdown(word: string): string | undefined {
  const rule = functionWords.get(word);
  return rule === undefined ? undefined : `**${rule.signature}**: ${rule.doc}\n\n${code(rule.example)}`;
}

function limitLine(name: string): string {
  const entry = limitTable.find((each) => each.name === name);
  return entry === undefined ? name : `\`${name}\` ${limitValue(limitsOf([]).get(entry.name))}`;
}

function ruleOf(term: string): string | undefined {
  const rule = rules.find(({ slug }) => slug === term);
  return rule === undefined ? undefined : ruleMarkdown(rule);
}

function limitOf(term: string): string | undefined {
  const told = limitMarkdown(term, []);
  const setting = limitSetting(term);
  return told === undefined || setting === undefined ? undefined : `# Limit \`${term}\`\n\n${told}\n\n${setting}`;
}

function reckoningOf(term: string): string | undefined {
  const reckoning = workedExample().get(term) ?? workedExample().get(generalId(term));
  if (reckoning === undefined) return undefined;
  return `# ${reckoning.label}\n\nIn the worked example:\n\n${reckoningMarkdown(reckoning)}`;
}

// `hole.X7.level` of another plan is explained by the example's own first hole.
function generalId(term: string): string {
  const [subject, , last] = term.split(".");
  const match = [...workedExample().keys()].find((id) => {
    const parts = id.split(".");
    return parts.length === 3 && parts[0] === subject && parts[2] === last;
  });
  return last === undefined ? "" : (match ?? "");
}

function wordParts(term: string): string[] {
  return [...blockRules.values()].flatMap((block) => {
    const own = block.statements
      .filter(({ word }) => word === term)
      .map((rule) => {
        return `# \`${term}\` in \`${block.name}\`\n\n${statementMarkdown(rule)}`;
      });
    const clauses = block.statements.flatMap((rule) =>
      rule.clauses
        .filter(({ word }) => word === term)
        .map(({ doc }) => `# \`${term}\` of \`${rule.word}\` in \`${block.name}\`\n\n${doc}\n\n${code(rule.example)}`),
    );
    return [...own, ...clauses];
  });
}

function unitPart(term: string): string | undefined {
  const told = unitMarkdown(term);
  return told === undefined || unit(unitWords.get(term)?.unit ?? "") === undefined ? undefined : `# Unit\n\n${told}`;
}

function functionPart(term: string): string | undefined {
  const told = functionMarkdown(term);
  return told === undefined ? undefined : `# Function\n\n${told}`;
}

/** A longer example is one because of its length: a page shows how it begins, and says how long it is. */
const shownOfExample = 400;

function fenced(shown: Example, other: Example): string {
  if ("text" in shown) return code(cutShort(shown.text.trimEnd()));
  const lines = shown.change.map(([from, to]) => (to.trim() === "" ? `# without: ${from.trim()}` : to.trim()));
  if (lines.length > 0) return code(lines.join("\n"));
  return code("change" in other ? other.change.map(([from]) => from.trim()).join("\n") : "# as it stands");
}

function cutShort(text: string): string {
  if (text.length <= shownOfExample) return text;
  const lines = text.slice(0, shownOfExample).split("\n");
  const begun = lines.map((line) => (line.length > 60 ? `${line.slice(0, 60)}…` : line)).join("\n");
  return `${begun}\n# and so on, ${text.length} characters in all`;
}

const dynamised = "    review at 2 weeks";
const slotAtTop = "top 28 mm, runs medial-lateral, slot 6 mm";
const slotAtTip = "tip 26 mm, runs medial-lateral";

/** The example as it stands, then as it would be for what a nail without it does not have. */
const workedExamples: readonly Example[] = [
  { change: [] },
  { change: [["    landmark plafond", "    landmark knee-joint -2 mm\n    landmark plafond"]] },
  { change: [["    wire ball-tip\n", "    block at 250 mm, side medial, screw 40 mm\n    wire ball-tip\n"]] },
  { change: [[dynamised, `    dynamise at 12 weeks, remove P1\n${dynamised}`]] },
  {
    change: [
      [dynamised, `    dynamise at 12 weeks, remove D1\n${dynamised}`],
      [slotAtTop, "top 28 mm, runs medial-lateral"],
      [slotAtTip, "tip 26 mm, runs medial-lateral, slot 6 mm"],
    ],
  },
];

let worked: ReadonlyMap<string, Reckoning> | undefined;

/** Every reckoning there is, from the first example that has it. */
function workedExample(): ReadonlyMap<string, Reckoning> {
  if (worked === undefined) {
    const byId = new Map<string, Reckoning>();
    for (const example of workedExamples) {
      const { file, text, library } = exampleDocument(example);
      for (const reckoning of analyse(file, text, library).reckonings?.list ?? []) {
        if (!byId.has(reckoning.id)) byId.set(reckoning.id, reckoning);
      }
    }
    worked = byId;
  }
  return worked;
}

/** The reckonings of the worked example in their order: what the reference is made from. */
export function workedReckonings(): readonly Reckoning[] {
  return [...workedExample().values()];
}
