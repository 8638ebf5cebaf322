/** What can be folded away, each with what stands there instead: blocks, runs of notes and of comments, texts over several lines. */
import type { ShapedStatement } from "../../grammar/shape.ts";
import { lex } from "../../grammar/tokens.ts";
import type { Span } from "../../grammar/tree.ts";
import type { Analysis } from "./analyse.ts";
import { linesOf } from "./lines.ts";
import { keyReckonings, statementsOf } from "./statements.ts";
import { answerInWords } from "./wording.ts";

export interface Fold {
  /** From the end of the line that stays to the end of the last line that goes; both on different lines. */
  readonly span: Span;
  readonly kind: "block" | "comment";
  /** What a block holds, with the first number it decides: "15 steps, tip at 339 mm"; undefined where nothing is to be said. */
  readonly summary: string | undefined;
}

/** In the order of the text. */
export function foldsIn(analysis: Analysis): readonly Fold[] {
  const { text } = analysis;
  const lines = linesOf(text);
  const lineOf = (offset: number): number => lines.position(offset).line;
  const lineEnd = (line: number): number => lines.offset({ line, character: lines.text(line).length });
  const lineStart = (line: number): number => lines.offset({ line, character: 0 });
  const folds = [...blocks(analysis, lineEnd, lineOf), ...remarks(text, lineOf, lineStart), ...texts(text)];
  return folds
    .filter(({ span }) => lineOf(span.start) < lineOf(span.end))
    .sort((a, b) => a.span.start - b.span.start || b.span.end - a.span.end);
}

/** The closing brace stays in sight, so a block folds from its opening brace to the line before its end. */
function blocks(
  analysis: Analysis,
  lineEnd: (line: number) => number,
  lineOf: (offset: number) => number,
): readonly Fold[] {
  return [...statementsOf(analysis.meaning.shaped.statements)].flatMap((shaped): Fold[] => {
    const { block } = shaped.statement;
    if (block === undefined) return [];
    const last = lineOf(block.close?.start ?? block.span.end);
    const end = lineEnd(block.close === undefined ? last : last - 1);
    return end <= block.open.end
      ? []
      : [{ span: { start: block.open.end, end }, kind: "block", summary: summaryOf(analysis, shaped) }];
  });
}

function summaryOf(analysis: Analysis, shaped: ShapedStatement): string {
  const { children, statement } = shaped;
  const what = stepBlocks.has(statement.word.name) ? "step" : "line";
  const count = `${children.length} ${what}${children.length === 1 ? "" : "s"}`;
  // The nail tells more of an operation than its first step.
  const telling = [...children.filter(({ rule }) => rule?.word === "nail"), ...children];
  const first = telling.flatMap((child) => keyReckonings(analysis, child)).flatMap((each) => answerInWords(each) ?? []);
  return first[0] === undefined ? count : `${count}, ${first[0]}`;
}

const stepBlocks: ReadonlySet<string> = new Set(["operation", "fallback", "achieved", "removal"]);

/** Lines that begin with a note or a comment, one after the other. */
function remarks(
  text: string,
  lineOf: (offset: number) => number,
  lineStart: (line: number) => number,
): readonly Fold[] {
  const runs: { kind: string; from: number; to: number; end: number; start: number }[] = [];
  for (const { kind, span } of lex(text)) {
    if (kind !== "note" && kind !== "comment") continue;
    const line = lineOf(span.start);
    if (text.slice(lineStart(line), span.start).trim() !== "") continue;
    const last = runs.at(-1);
    if (last?.kind === kind && last.to === line - 1) {
      last.to = line;
      last.end = span.end;
    } else runs.push({ kind, from: line, to: line, start: span.start, end: span.end });
  }
  return runs.map(({ start, end }) => ({ span: { start, end }, kind: "comment", summary: undefined }));
}

function texts(text: string): readonly Fold[] {
  return lex(text)
    .filter(({ kind }) => kind === "text")
    .map(({ span }) => ({ span, kind: "block", summary: undefined }));
}
