/**
 * What a number is fed by and what it feeds: from the lines of a text to the reckonings made of them, and from those to the findings
 * that judge them. Every link was recorded when the number was made.
 */
import type { ShapedStatement } from "../../grammar/shape.ts";
import type { Span } from "../../grammar/tree.ts";
import type { Finding } from "../findings/finding.ts";
import type { Place } from "../meaning/plan.ts";
import type { Reckoning } from "../reckoning/reckoning.ts";
import type { Analysis } from "./analyse.ts";
import { holds, keyReckonings, pathTo, statementsOf } from "./statements.ts";
import { findingsOn } from "./why.ts";
import { answerText, findingText } from "./wording.ts";

/** `key` names the node again in the same text: `line:120`, `reckoning:nail.tip`, `finding:3`. */
export interface FeedNode {
  readonly key: string;
  readonly kind: "line" | "reckoning" | "finding";
  readonly name: string;
  readonly detail: string;
  readonly place: Place;
  /** The word to put the cursor on, inside `place`. */
  readonly span: Span;
}

export interface Feed {
  readonly node: FeedNode;
  /** Where the one is written in the line of the other. */
  readonly spans: readonly Span[];
}

/** The line at the offset, and the numbers it decides. */
export function feedNodesAt(analysis: Analysis, offset: number): readonly FeedNode[] {
  const shaped = pathTo(analysis, offset).at(-1);
  if (shaped === undefined || shaped.statement.block !== undefined || shaped.statement.word.name === "") return [];
  const numbers = keyReckonings(analysis, shaped).map((reckoning) => reckoningNode(analysis, reckoning));
  return [...numbers, lineNode(analysis, shaped)];
}

/** What the node is made of: the lines behind a reckoning, the reckoning behind a finding, the named lines a line speaks of. */
export function fedBy(analysis: Analysis, key: string): readonly Feed[] {
  const { line, reckoning, finding } = found(analysis, key);
  if (reckoning !== undefined) return grouped(linesOf(analysis, reckoning.from));
  if (finding !== undefined) {
    const numbers = (analysis.reckonings?.list ?? []).filter((each) => findingsOn(analysis, each).includes(finding));
    return numbers.map((each) => ({ node: reckoningNode(analysis, each), spans: [finding.place.span] }));
  }
  if (line === undefined) return [];
  const uses = analysis.meaning.references.uses.filter(({ span }) => within(span, line.statement.span));
  return grouped(
    uses.flatMap(({ span, declared }) => {
      const behind = declared === undefined ? undefined : lineAt(analysis, declared);
      return behind === undefined || behind === line ? [] : [{ node: lineNode(analysis, behind), span }];
    }),
  );
}

/** What is made of the node: the reckonings of a line and the lines that speak of its name, the findings of a reckoning. */
export function feeds(analysis: Analysis, key: string): readonly Feed[] {
  const { line, reckoning } = found(analysis, key);
  if (reckoning !== undefined) {
    return findingsOn(analysis, reckoning)
      .filter(({ place }) => place.file === analysis.file)
      .map((finding) => ({ node: findingNode(analysis, finding), spans: [finding.place.span] }));
  }
  if (line === undefined) return [];
  const { span } = line.statement;
  const made = (analysis.reckonings?.list ?? []).flatMap((each) => {
    const here = each.from.filter((place) => place.file === analysis.file && within(place.span, span));
    return here.length === 0 ? [] : [{ node: reckoningNode(analysis, each), spans: here.map((place) => place.span) }];
  });
  const speaking = analysis.meaning.references.uses.flatMap((use) => {
    const { declared } = use;
    if (declared?.file !== analysis.file || !within(declared.span, span)) return [];
    const user = lineAt(analysis, { file: analysis.file, span: use.span });
    return user === undefined || user === line ? [] : [{ node: lineNode(analysis, user), span: use.span }];
  });
  return [...made, ...grouped(speaking)];
}

interface Found {
  readonly line?: ShapedStatement | undefined;
  readonly reckoning?: Reckoning | undefined;
  readonly finding?: Finding | undefined;
}

function found(analysis: Analysis, key: string): Found {
  const at = key.indexOf(":");
  const name = key.slice(at + 1);
  switch (key.slice(0, at)) {
    case "line":
      return { line: lines(analysis).find(({ statement }) => `${statement.span.start}` === name) };
    case "reckoning":
      return { reckoning: analysis.reckonings?.byId.get(name) };
    case "finding":
      return { finding: analysis.judgement.findings.find((_, index) => `${index}` === name) };
    default:
      return {};
  }
}

function lines({ meaning }: Analysis): readonly ShapedStatement[] {
  return [...statementsOf(meaning.shaped.statements)].filter(({ statement }) => statement.block === undefined);
}

function lineAt(analysis: Analysis, { file, span }: Place): ShapedStatement | undefined {
  if (file !== analysis.file) return undefined;
  const shaped = pathTo(analysis, span.start).findLast(({ statement }) => holds(statement.span, span.end));
  return shaped?.statement.block === undefined ? shaped : undefined;
}

function linesOf(analysis: Analysis, places: readonly Place[]): readonly Link[] {
  return places.flatMap((place) => {
    const line = lineAt(analysis, place);
    return line === undefined ? [] : [{ node: lineNode(analysis, line), span: place.span }];
  });
}

interface Link {
  readonly node: FeedNode;
  readonly span: Span;
}

function grouped(links: readonly Link[]): readonly Feed[] {
  const byKey = new Map<string, { node: FeedNode; spans: Span[] }>();
  for (const { node, span } of links) {
    const known = byKey.get(node.key);
    if (known === undefined) byKey.set(node.key, { node, spans: [span] });
    else known.spans.push(span);
  }
  return [...byKey.values()];
}

function lineNode({ file, text }: Analysis, { statement }: ShapedStatement): FeedNode {
  const { span, word } = statement;
  const name = text.slice(span.start, span.end).replace(/\s+/g, " ").trim().slice(0, longestName);
  return { key: `line:${span.start}`, kind: "line", name, detail: "line", place: { file, span }, span: word.span };
}

/** It stands in the line that decides it, else in the first it came from. */
function reckoningNode(analysis: Analysis, reckoning: Reckoning): FeedNode {
  const home = lines(analysis).find((shaped) => keyReckonings(analysis, shaped).includes(reckoning));
  const first = linesOf(analysis, reckoning.from)[0]?.node.place.span;
  const span = home?.statement.span ?? first ?? { start: 0, end: 0 };
  const detail = answerText(reckoning);
  const key = `reckoning:${reckoning.id}`;
  return { key, kind: "reckoning", name: reckoning.label, detail, place: { file: analysis.file, span }, span };
}

function findingNode(analysis: Analysis, finding: Finding): FeedNode {
  const key = `finding:${analysis.judgement.findings.indexOf(finding)}`;
  const { span } = finding.place;
  return { key, kind: "finding", name: finding.slug, detail: findingText(finding), place: finding.place, span };
}

function within(inner: Span, outer: Span): boolean {
  return outer.start <= inner.start && inner.end <= outer.end;
}

const longestName = 80;
