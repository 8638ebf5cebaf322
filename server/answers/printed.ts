/**
 * A document as it would be handed round: the text with the numbers behind the lines that decide them and the findings under the lines
 * they are about, all as comments, and every number of a plan below. Only comments are added, so the text still reads as itself.
 */
import { lex } from "../../grammar/tokens.ts";
import { lineBreak } from "../findings/line-edits.ts";
import { visible } from "../findings/words.ts";
import type { Analysis } from "./analyse.ts";
import { catalogueNotices, caution } from "./caution.ts";
import { hintsIn } from "./hints.ts";
import { linesOf } from "./lines.ts";
import { answerText, findingText, waivedText } from "./wording.ts";

/** `name` is what the head of the text calls the document. */
export function printed(analysis: Analysis, name: string): string {
  const rows = [
    ...head(name, "with its numbers behind the lines that decide them and its findings under the lines they are about"),
    ...body(analysis),
    ...numbers(analysis),
  ];
  return rows.join(lineBreak(analysis.text));
}

/** The lines over a text the tool has made from another: from which, what was done to it, and the words of caution. */
export function head(name: string, made: string): readonly string[] {
  return [comment(`${name}, ${made}.`), ...caution.split(/(?<=\.) /).map(comment), ""];
}

/** One line of its own; nothing in it ends it. */
export function comment(text: string): string {
  return `# ${visible(text.replace(/\s+/g, " "))}`;
}

function body(analysis: Analysis): readonly string[] {
  const { text } = analysis;
  const lines = linesOf(text);
  const lineOf = (offset: number): number => lines.position(offset).line;
  const inText = linesInsideTexts(text, lineOf);
  // A comment inside a text would be a part of it.
  const outside = (line: number): number => (inText.has(line) ? outside(line + 1) : line);
  const behind = gathered(hintsIn(analysis, { start: 0, end: text.length }), ({ offset }) => outside(lineOf(offset)));
  const under = gathered(analysis.judgement.findings, ({ place }) => outside(lineOf(place.span.start)));
  return Array.from({ length: lines.count }, (_, line) => {
    const now = lines.text(line);
    const labels = (behind.get(line) ?? []).map(({ label }) => label).join(", ");
    const indent = /^[ \t]*/.exec(now)?.[0] ?? "";
    const found = (under.get(line) ?? []).map((finding) => {
      const waived = waivedText(finding);
      const remark = waived === undefined ? "" : ` (${waived})`;
      return `${indent}${comment(`${finding.grade} ${finding.slug}: ${findingText(finding)}${remark}`)}`;
    });
    return [labels === "" ? now : `${now}  ${comment(`→ ${labels}`)}`, ...found];
  }).flat();
}

/** Lines whose end lies inside a text. */
function linesInsideTexts(text: string, lineOf: (offset: number) => number): ReadonlySet<number> {
  const texts = lex(text).filter(({ kind }) => kind === "text");
  return new Set(
    texts.flatMap(({ span }) => {
      const [first, last] = [lineOf(span.start), lineOf(span.end)];
      return Array.from({ length: last - first }, (_, index) => first + index);
    }),
  );
}

function gathered<Thing>(things: readonly Thing[], lineOf: (thing: Thing) => number): ReadonlyMap<number, Thing[]> {
  const found = new Map<number, Thing[]>();
  for (const thing of things) {
    const line = lineOf(thing);
    found.set(line, [...(found.get(line) ?? []), thing]);
  }
  return found;
}

function numbers(analysis: Analysis): readonly string[] {
  const list = analysis.reckonings?.list ?? [];
  if (list.length === 0) return [];
  const width = Math.max(...list.map(({ id }) => id.length));
  return [
    comment("Every number of the plan:"),
    ...list.map((reckoning) => {
      const remark = reckoning.remark === undefined ? "" : ` (${reckoning.remark})`;
      return `# ${visible(`${reckoning.id.padEnd(width)}  ${answerText(reckoning)}, ${reckoning.label}${remark}`)}`;
    }),
    ...catalogueNotices(analysis).map((notice) => comment(`Catalogue: ${notice}`)),
    "",
  ];
}
