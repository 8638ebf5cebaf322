/** `textDocument/documentHighlight`. */
import { DocumentHighlightKind } from "vscode-languageserver";
import { highlightsAt } from "../../answers/highlights.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol, toRange } from "../positions.ts";

export function documentHighlightRequest(context: Context): void {
  context.connection.onDocumentHighlight(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { encoding } = context.client;
    const { lines } = here.document;
    return highlightsAt(here.analysis, fromProtocol(lines, position, encoding)).map(({ span, declares }) => ({
      range: toRange(lines, span, encoding),
      kind: declares ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
    }));
  });
}
