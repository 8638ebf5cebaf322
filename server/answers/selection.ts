/** What a selection grows to at an offset: from the word or number there over its expression, clause, line and block to the text. */
import type { Span, Statement } from "../../grammar/tree.ts";
import type { Analysis } from "./analyse.ts";
import { itemsAt } from "./at.ts";
import { holds, pathTo } from "./statements.ts";

/** From the narrowest to the whole text, each strictly inside the next and all holding the offset. */
export function selectionsAt(analysis: Analysis, offset: number): readonly Span[] {
  const { text, parsed } = analysis;
  const at = offset > 0 ? Math.min(Math.floor(offset), text.length) : 0;
  const path = pathTo(analysis, at);
  const innermost = path.at(-1);
  const clause = innermost?.clauses.find(({ span }) => holds(span, at))?.span;
  const items = itemsAt(parsed.tree, at).flatMap((item) => [
    ...(item.kind === "quantity" ? [item.number.span, ...(item.unit === undefined ? [] : [item.unit.span])] : []),
    ...(item.kind === "text" ? [withoutQuotes(item.source, item.span)] : []),
    item.span,
  ]);
  const word = innermost === undefined ? [] : [innermost.statement.word.span];
  const spans = [
    ...[...word, ...items, ...(clause === undefined ? [] : [clause])],
    ...path.flatMap(({ statement }) => statementSpans(statement)),
    { start: 0, end: text.length },
  ];
  return nested(spans.filter((span) => holds(span, at)));
}

function statementSpans({ span, block, notes }: Statement): readonly Span[] {
  const noted = notes[0] === undefined ? [] : [{ start: notes[0].span.start, end: span.end }];
  const inside = block === undefined ? [] : [{ start: block.open.end, end: block.close?.start ?? block.span.end }];
  const line = { start: span.start, end: block?.open.start ?? span.end };
  return [line, ...inside, span, ...noted];
}

function withoutQuotes(source: string, { start, end }: Span): Span {
  const quotes = source.startsWith('"""') ? 3 : 1;
  return source.length >= 2 * quotes && source.endsWith('"')
    ? { start: start + quotes, end: end - quotes }
    : { start, end };
}

/** By size; of those that cross one already taken, none. */
function nested(spans: readonly Span[]): readonly Span[] {
  const taken: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.end - a.start - (b.end - b.start))) {
    const last = taken.at(-1);
    const grows = last === undefined || span.end - span.start > last.end - last.start;
    if (grows && (last === undefined || (span.start <= last.start && last.end <= span.end))) taken.push(span);
  }
  return taken;
}
