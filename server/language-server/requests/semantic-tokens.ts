/** `textDocument/semanticTokens/full`, `/full/delta` and `/range`: the engine's tokens as the protocol's numbers. */
import type { SemanticTokensEdit } from "vscode-languageserver";
import type { Span } from "../../../grammar/tree.ts";
import { type SemanticToken, tokenModifiers, tokensIn, tokenTypes } from "../../answers/semantic-tokens.ts";
import { analysed, type Context } from "../context.ts";
import type { OpenDocument } from "../documents.ts";
import { fromProtocol, toProtocol } from "../positions.ts";

export function semanticTokensRequest(context: Context): void {
  const { semanticTokens } = context.connection.languages;
  const sent = new Map<string, { readonly resultId: string; readonly data: readonly number[] }>();
  let last = 0;

  const numbersOf = (uri: string, within?: (document: OpenDocument) => Span): number[] | undefined => {
    const here = analysed(context, uri);
    if (here === undefined) return undefined;
    const span = within?.(here.document) ?? { start: 0, end: here.document.text.length };
    return numbers(context, here.document, tokensIn(here.analysis, span));
  };
  const remember = (uri: string, data: readonly number[]): string => {
    last += 1;
    sent.set(uri, { resultId: `${last}`, data });
    return `${last}`;
  };

  semanticTokens.on(({ textDocument: { uri } }) => {
    const data = numbersOf(uri);
    return data === undefined ? null : { resultId: remember(uri, data), data };
  });
  semanticTokens.onDelta(({ textDocument: { uri }, previousResultId }) => {
    const data = numbersOf(uri);
    if (data === undefined) return null;
    const before = sent.get(uri);
    const resultId = remember(uri, data);
    return before?.resultId === previousResultId ? { resultId, edits: edits(before.data, data) } : { resultId, data };
  });
  semanticTokens.onRange(({ textDocument: { uri }, range }) => {
    const data = numbersOf(uri, ({ lines }) => ({
      start: fromProtocol(lines, range.start, context.client.encoding),
      end: fromProtocol(lines, range.end, context.client.encoding),
    }));
    return data === undefined ? null : { data };
  });
}

/** Five numbers a token, each place told from the one before it; a token over several lines is cut where the client wants it. */
function numbers(context: Context, document: OpenDocument, tokens: readonly SemanticToken[]): number[] {
  const data: number[] = [];
  let [line, character] = [0, 0];
  for (const { span, type, modifiers } of tokens) {
    const bits = modifiers.reduce((sum, modifier) => sum | (1 << tokenModifiers.indexOf(modifier)), 0);
    for (const piece of context.client.spansLines ? [span] : piecesOf(document, span)) {
      const start = toProtocol(document.lines, piece.start, context.client.encoding);
      const end = toProtocol(document.lines, piece.end, context.client.encoding);
      const length = start.line === end.line ? end.character - start.character : piece.end - piece.start;
      const isSameLine = start.line === line;
      data.push(start.line - line, isSameLine ? start.character - character : start.character);
      data.push(length, tokenTypes.indexOf(type), bits);
      [line, character] = [start.line, start.character];
    }
  }
  return data;
}

function piecesOf({ lines }: OpenDocument, span: Span): readonly Span[] {
  const [first, last] = [lines.position(span.start).line, lines.position(span.end).line];
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const start = lines.offset({ line: first + index, character: 0 });
    const end = start + lines.text(first + index).length;
    return { start: Math.max(start, span.start), end: Math.min(end, span.end) };
  }).filter(({ start, end }) => start < end);
}

/** One edit between what both have at the head and at the end. */
function edits(before: readonly number[], after: readonly number[]): SemanticTokensEdit[] {
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head += 1;
  let tail = 0;
  while (tail < shorter - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail += 1;
  if (head === before.length && head === after.length) return [];
  return [{ start: head, deleteCount: before.length - head - tail, data: after.slice(head, after.length - tail) }];
}
