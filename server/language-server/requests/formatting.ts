/** `textDocument/formatting`, of the whole text, of ranges, and while typing. */
import type { TextEdit } from "vscode-languageserver";
import type { Edit } from "../../../grammar/problems.ts";
import { formattingEdits } from "../../answers/formatting.ts";
import { formattingEditsIn, formattingEditsTyped } from "../../answers/formatting-part.ts";
import { analysed, type Context } from "../context.ts";
import type { OpenDocument } from "../documents.ts";
import { fromProtocol, toRange, toSpan } from "../positions.ts";

export function formattingRequest(context: Context): void {
  const { connection } = context;
  connection.onDocumentFormatting(({ textDocument }) => {
    const here = analysed(context, textDocument.uri);
    return here === undefined ? null : textEdits(context, here.document, formattingEdits(here.analysis) ?? []);
  });
  connection.onDocumentRangeFormatting(({ textDocument, range }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const span = toSpan(here.document.lines, range, context.client.encoding);
    return textEdits(context, here.document, formattingEditsIn(here.analysis, [span]));
  });
  connection.onDocumentRangesFormatting(({ textDocument, ranges }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const spans = ranges.map((range) => toSpan(here.document.lines, range, context.client.encoding));
    return textEdits(context, here.document, formattingEditsIn(here.analysis, spans));
  });
  connection.onDocumentOnTypeFormatting(({ textDocument, position, ch }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const offset = fromProtocol(here.document.lines, position, context.client.encoding);
    return textEdits(context, here.document, formattingEditsTyped(here.analysis, offset, ch));
  });
}

function textEdits(context: Context, { lines }: OpenDocument, edits: readonly Edit[]): TextEdit[] {
  return edits.map(({ span, text }) => ({ range: toRange(lines, span, context.client.encoding), newText: text }));
}
