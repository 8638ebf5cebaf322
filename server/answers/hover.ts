/**
 * Hovers: an ordered list of small finders, each asked in turn, and what they say is joined: findings, the name, the unit or
 * function under the cursor, the reckonings of the line, the word.
 */
import type { Span } from "../../grammar/tree.ts";
import { rules } from "../findings/all.ts";
import { groupNamed, source2018 } from "../findings/fracture-codes.ts";
import type { Analysis } from "./analyse.ts";
import { itemAt } from "./at.ts";
import {
  functionMarkdown,
  limitMarkdown,
  reckoningMarkdown,
  ruleMarkdown,
  statementMarkdown,
  unitMarkdown,
} from "./explain.ts";
import { holds, keyReckonings, pathTo } from "./statements.ts";

export interface Hover {
  readonly markdown: string;
  readonly span: Span;
}

interface Here {
  readonly analysis: Analysis;
  readonly offset: number;
}

/** Undefined where there is nothing to say. */
export function hoverAt(analysis: Analysis, offset: number): Hover | undefined {
  const found = finders.flatMap((finder) => finder({ analysis, offset }) ?? []);
  const [first] = found;
  if (first === undefined) return undefined;
  const narrowest = found.reduce(
    (best, { span }) => (span.end - span.start < best.end - best.start ? span : best),
    first.span,
  );
  return { markdown: found.map(({ markdown }) => markdown).join("\n\n---\n\n"), span: narrowest };
}

const finders: readonly ((here: Here) => readonly Hover[] | undefined)[] = [
  findingsHere,
  unitHere,
  functionHere,
  codeHere,
  nameHere,
  ruleOrLimitHere,
  reckoningsHere,
  wordHere,
];

function findingsHere({ analysis, offset }: Here): readonly Hover[] {
  return analysis.judgement.findings
    .filter(({ place }) => place.file === analysis.file && holds(place.span, offset))
    .map(({ message, slug, grade, place, waived }) => {
      const rule = rules.find((each) => each.slug === slug);
      const why = rule === undefined ? "" : `\n\n${rule.why}\n\nBasis: ${rule.basis.text}.`;
      const isWaived = waived === undefined ? "" : `\n\nWaived: ${waived.because} (${waived.signed})`;
      return { markdown: `**${grade}** \`${slug}\`: ${message}${why}${isWaived}`, span: place.span };
    });
}

function unitHere({ analysis, offset }: Here): readonly Hover[] {
  const item = itemAt(analysis.parsed.tree, offset);
  if (item?.kind !== "quantity") return [];
  return [item.unit, item.plusMinusUnit]
    .flatMap((unit) => {
      if (unit === undefined || !holds(unit.span, offset) || unit.span.end === unit.span.start) return [];
      const markdown = unitMarkdown(unit.text) ?? unitMarkdown(unit.unit);
      return markdown === undefined ? [] : [{ markdown, span: unit.span }];
    })
    .slice(0, 1);
}

function functionHere({ analysis, offset }: Here): readonly Hover[] {
  const item = itemAt(analysis.parsed.tree, offset);
  if (item?.kind !== "call" || !holds(item.name.span, offset)) return [];
  const markdown = functionMarkdown(item.name.name);
  return markdown === undefined ? [] : [{ markdown, span: item.name.span }];
}

function codeHere({ analysis, offset }: Here): readonly Hover[] {
  const item = itemAt(analysis.parsed.tree, offset);
  if (item?.kind !== "code") return [];
  const group = groupNamed(item.text.replace("-", "").replace(/[.([*].*$/, ""));
  if (group === undefined) return [];
  const markdown = `**${group.code}**: ${group.bone}, ${group.meaning}\n\n${source2018} (${group.mark})`;
  return [{ markdown, span: item.span }];
}

function nameHere({ analysis, offset }: Here): readonly Hover[] {
  const { uses, declarations } = analysis.meaning.references;
  const use = uses.find(({ span }) => holds(span, offset));
  if (use === undefined) return [];
  const declared = declarations.find(
    ({ name, kind, place }) => name === use.name && kind === use.kind && place.file === use.declared?.file,
  );
  return declared === undefined ? [] : [{ markdown: `**${use.name}**: ${declared.detail}`, span: use.span }];
}

function ruleOrLimitHere({ analysis, offset }: Here): readonly Hover[] {
  const item = itemAt(analysis.parsed.tree, offset);
  if (item?.kind !== "word") return [];
  const shaped = pathTo(analysis, offset).at(-1);
  const word = shaped?.statement.word.name;
  const { document } = analysis.meaning;
  if (word === "limit") {
    const markdown = limitMarkdown(item.name, document?.kind === "protocol" ? [document] : []);
    return markdown === undefined ? [] : [{ markdown, span: item.span }];
  }
  if (word !== "waive" && word !== "grade") return [];
  const rule = rules.find(({ slug }) => slug === item.name);
  return rule === undefined ? [] : [{ markdown: ruleMarkdown(rule), span: item.span }];
}

function reckoningsHere({ analysis, offset }: Here): readonly Hover[] {
  const shaped = pathTo(analysis, offset).at(-1);
  if (shaped === undefined || shaped.statement.block !== undefined || !holds(shaped.statement.span, offset)) return [];
  const key = keyReckonings(analysis, shaped);
  const { span } = shaped.statement;
  const from = (analysis.reckonings?.list ?? []).filter(
    (reckoning) =>
      !key.includes(reckoning) &&
      reckoning.from.some(
        (place) => place.file === analysis.file && span.start <= place.span.start && place.span.end <= span.end,
      ),
  );
  const feeds = from.slice(0, 12).map(({ id }) => `\`${id}\``);
  const more = from.length > 12 ? ` and ${from.length - 12} more` : "";
  const shown = key.map((reckoning) => ({ markdown: reckoningMarkdown(reckoning), span }));
  return feeds.length === 0 ? shown : [...shown, { markdown: `Feeds ${feeds.join(", ")}${more}.`, span }];
}

function wordHere({ analysis, offset }: Here): readonly Hover[] {
  const shaped = pathTo(analysis, offset).at(-1);
  if (shaped?.rule === undefined) return [];
  const { word } = shaped.statement;
  if (holds(word.span, offset)) return [{ markdown: statementMarkdown(shaped.rule), span: word.span }];
  return shaped.clauses
    .filter((clause) => holds(clause.word.span, offset))
    .map((clause) => ({ markdown: `**${clause.rule.word}**: ${clause.rule.doc}`, span: clause.word.span }));
}
