/** `textDocument/hover`. */
import { MarkupKind } from "vscode-languageserver";
import { hoverAt } from "../../answers/hover.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol, toRange } from "../positions.ts";

export function hoverRequest(context: Context): void {
  context.connection.onHover(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { document, analysis } = here;
    const hover = hoverAt(analysis, fromProtocol(document.lines, position, context.client.encoding));
    if (hover === undefined) return null;
    return {
      contents: { kind: context.client.markdown ? MarkupKind.Markdown : MarkupKind.PlainText, value: hover.markdown },
      range: toRange(document.lines, hover.span, context.client.encoding),
    };
  });
}
