/** `textDocument/formatting`. */
import { formattingEdits } from "../../answers/formatting.ts";
import { analysed, type Context } from "../context.ts";
import { toRange } from "../positions.ts";

export function formattingRequest(context: Context): void {
  context.connection.onDocumentFormatting(({ textDocument }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const edits = formattingEdits(here.analysis) ?? [];
    return edits.map(({ span, text }) => ({
      range: toRange(here.document.lines, span, context.client.encoding),
      newText: text,
    }));
  });
}
