/**
 * Hovers: an ordered list of small finders, each asked in turn, and what they say is joined: findings with their limits, what
 * stands under the cursor, the reckonings of the line, the word.
 */
import { placeAt, type ShapedPlace } from "../../grammar/shape-place.ts";
import type { Item, QuantityItem, Span } from "../../grammar/tree.ts";
import type { Part } from "../../grammar/vocabulary/rule.ts";
import { rules } from "../findings/all.ts";
import type { Finding } from "../findings/finding.ts";
import type { Place } from "../meaning/plan.ts";
import type { Analysis } from "./analyse.ts";
import { itemAt } from "./at.ts";
import { codeMarkdown } from "./code-text.ts";
import { functionMarkdown, reckoningMarkdown, ruleMarkdown, statementMarkdown } from "./explain.ts";
import { basisText, limitMarkdown, protocolsOf } from "./limit-text.ts";
import { plain, sections } from "./markdown.ts";
import { holds, keyReckonings } from "./statements.ts";
import { unitMarkdown } from "./unit-text.ts";
import { needText } from "./why.ts";
import { findingText, waivedText } from "./wording.ts";

export interface Hover {
  readonly markdown: string;
  readonly span: Span;
}

interface Here {
  readonly analysis: Analysis;
  readonly offset: number;
  readonly place: ShapedPlace;
  readonly item: Item | undefined;
}

/** Undefined where there is nothing to say. */
export function hoverAt(analysis: Analysis, offset: number): Hover | undefined {
  const place = placeAt(analysis.meaning.shaped, offset);
  const here: Here = { analysis, offset, place, item: itemAt(analysis.parsed.tree, offset) };
  const found = finders.flatMap((finder) => finder(here));
  const [first] = found;
  if (first === undefined) return undefined;
  const narrowest = found.reduce((best, { span }) => (sizeOf(span) < sizeOf(best) ? span : best), first.span);
  return { markdown: sections(found.map(({ markdown }) => markdown)), span: narrowest };
}

function sizeOf({ start, end }: Span): number {
  return end - start;
}

const finders: readonly ((here: Here) => readonly Hover[])[] = [
  findingsHere,
  unitHere,
  functionHere,
  codeHere,
  pathHere,
  nameHere,
  ruleOrLimitHere,
  choiceHere,
  reckoningsHere,
  wordHere,
];

function findingsHere({ analysis, offset }: Here): readonly Hover[] {
  return analysis.judgement.findings
    .filter(({ place }) => place.file === analysis.file && holds(place.span, offset))
    .map((finding) => ({ markdown: findingMarkdown(analysis, finding), span: finding.place.span }));
}

function findingMarkdown(analysis: Analysis, finding: Finding): string {
  const { slug, grade } = finding;
  const rule = rules.find((each) => each.slug === slug);
  const need = needText(finding);
  const waived = waivedText(finding);
  const limits = rule?.kind === "plan" ? rule.limits : [];
  return [
    `**${grade}** \`${slug}\`: ${plain(findingText(finding))}`,
    ...(waived === undefined ? [] : [plain(waived)]),
    ...(need === undefined ? [] : [plain(need)]),
    ...(rule === undefined ? [] : [rule.why, `Basis: ${basisText(rule.basis)}.`]),
    ...limits.flatMap((name) => limitMarkdown(name, protocolsOf(analysis.meaning.document), analysis.texts) ?? []),
  ].join("\n\n");
}

function unitHere({ offset, item }: Here): readonly Hover[] {
  if (item?.kind !== "quantity") return [];
  return unitsOf(item)
    .filter(({ span }) => holds(span, offset))
    .flatMap(({ unit, span }) => {
      const markdown = unitMarkdown(unit, item);
      return markdown === undefined ? [] : [{ markdown, span }];
    })
    .slice(0, 1);
}

function unitsOf(item: QuantityItem): readonly { readonly unit: string; readonly span: Span }[] {
  return [item.unit, item.plusMinusUnit].flatMap((unit) =>
    unit === undefined || sizeOf(unit.span) === 0 ? [] : [{ unit: unit.unit, span: unit.span }],
  );
}

function functionHere({ offset, item }: Here): readonly Hover[] {
  if (item?.kind !== "call" || !holds(item.name.span, offset)) return [];
  const markdown = functionMarkdown(item.name.name);
  return markdown === undefined ? [] : [{ markdown, span: item.name.span }];
}

function codeHere({ item }: Here): readonly Hover[] {
  const markdown = item?.kind === "code" ? codeMarkdown(item.text) : undefined;
  return item === undefined || markdown === undefined ? [] : [{ markdown, span: item.span }];
}

/** The file that a path reads: what it is called and what its notice says. */
function pathHere({ analysis, offset }: Here): readonly Hover[] {
  const { document } = analysis.meaning;
  if (document?.kind !== "plan") return [];
  return [...document.uses, ...document.follows]
    .filter(({ path }) => path.place.file === analysis.file && holds(path.place.span, offset))
    .flatMap(({ path, document: read }) => {
      if (read === undefined) return [];
      const markdown = [`**${read.kind}**: ${plain(read.title.text)}`, ...noticeOf(analysis, read.title.place)];
      return [{ markdown: markdown.join("\n\n"), span: path.place.span }];
    });
}

function nameHere({ analysis, offset }: Here): readonly Hover[] {
  const { uses, declarations } = analysis.meaning.references;
  const use = uses.find(({ span }) => holds(span, offset));
  const declared = declarations.find(({ place }) => {
    if (use !== undefined) return place.file === use.declared?.file && place.span.start === use.declared.span.start;
    return place.file === analysis.file && holds(place.span, offset);
  });
  if (declared === undefined) return [];
  const markdown = [`**${declared.name}**: ${plain(declared.detail)}`, ...noticeOf(analysis, declared.place)];
  return [{ markdown: markdown.join("\n\n"), span: use?.span ?? declared.place.span }];
}

/** The notice of the catalogue a place lies in, which stands wherever its data is shown. */
function noticeOf({ meaning: { document }, file }: Analysis, place: Place): readonly string[] {
  if (document?.kind !== "plan" || place.file === file) return [];
  const notice = document.uses.find((use) => use.document?.file === place.file)?.document?.notice;
  return notice === undefined ? [] : [`Catalogue: ${plain(notice.text)}`];
}

function ruleOrLimitHere({ analysis, place, item }: Here): readonly Hover[] {
  const { slot } = place;
  if (item?.kind !== "word" || slot?.part.kind !== "names") return [];
  const found = (markdown: string | undefined): readonly Hover[] =>
    markdown === undefined ? [] : [{ markdown, span: item.span }];
  if (slot.part.name === "limit") {
    return found(limitMarkdown(item.name, protocolsOf(analysis.meaning.document), analysis.texts));
  }
  if (slot.part.name !== "finding") return [];
  const rule = rules.find(({ slug }) => slug === item.name);
  return found(rule === undefined ? undefined : ruleMarkdown(rule));
}

/** A word of a choice, or a name that is reckoned with. */
function choiceHere({ place: { slot, item } }: Here): readonly Hover[] {
  if (slot === undefined || item?.kind !== "word") return [];
  const doc = meaningOf(item.name, slot.part);
  return doc === undefined ? [] : [{ markdown: `**${item.name}**: ${doc}`, span: item.span }];
}

function meaningOf(name: string, part: Part): string | undefined {
  if (part.kind === "either") {
    return part.parts.map((way) => meaningOf(name, way)).find((meaning) => meaning !== undefined);
  }
  const words = part.kind === "choice" ? part.words : part.kind === "declares" ? (part.known ?? {}) : {};
  return Object.hasOwn(words, name) ? words[name] : undefined;
}

function reckoningsHere({ analysis, place }: Here): readonly Hover[] {
  const shaped = place.path.at(-1);
  if (shaped === undefined || shaped.statement.block !== undefined) return [];
  const key = keyReckonings(analysis, shaped);
  const { span } = shaped.statement;
  const isHere = (from: Place): boolean =>
    from.file === analysis.file && span.start <= from.span.start && from.span.end <= span.end;
  const feeds = (analysis.reckonings?.list ?? []).filter(
    (reckoning) => !key.includes(reckoning) && reckoning.from.some(isHere),
  );
  const named = feeds.slice(0, mostFed).map(({ id }) => `\`${id}\``);
  const more = feeds.length > mostFed ? ` and ${feeds.length - mostFed} more` : "";
  const shown = key.map((reckoning) => ({ markdown: reckoningMarkdown(reckoning), span }));
  return named.length === 0 ? shown : [...shown, { markdown: `Feeds ${named.join(", ")}${more}.`, span }];
}

const mostFed = 12;

function wordHere({ offset, place }: Here): readonly Hover[] {
  const shaped = place.path.at(-1);
  if (shaped?.rule === undefined) return [];
  const { word } = shaped.statement;
  if (holds(word.span, offset)) return [{ markdown: statementMarkdown(shaped.rule), span: word.span }];
  return shaped.clauses
    .filter((clause) => holds(clause.word.span, offset))
    .map((clause) => ({ markdown: `**${clause.rule.word}**: ${clause.rule.doc}`, span: clause.word.span }));
}
