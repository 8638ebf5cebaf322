/** `textDocument/completion`. */
import { CompletionItemKind, InsertTextFormat, MarkupKind } from "vscode-languageserver";
import { type Offer, offersAt } from "../../answers/completion.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol, toRange } from "../positions.ts";

const kinds: Readonly<Record<Offer["kind"], CompletionItemKind>> = {
  statement: CompletionItemKind.Keyword,
  clause: CompletionItemKind.Property,
  choice: CompletionItemKind.EnumMember,
  name: CompletionItemKind.Variable,
  size: CompletionItemKind.Value,
  unit: CompletionItemKind.Unit,
  code: CompletionItemKind.Constant,
  function: CompletionItemKind.Function,
};

export function completionRequest(context: Context): void {
  context.connection.onCompletion(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { document, analysis } = here;
    const markup = context.client.markdown ? MarkupKind.Markdown : MarkupKind.PlainText;
    const offers = offersAt(analysis, fromProtocol(document.lines, position, context.client.encoding));
    return offers.map((offer, index) => {
      const snippet = context.client.snippets ? offer.snippet : undefined;
      return {
        label: offer.label,
        kind: kinds[offer.kind],
        detail: offer.detail,
        ...(offer.documentation === undefined ? {} : { documentation: { kind: markup, value: offer.documentation } }),
        // The engine's order is the order of the trade; editors would sort by letters.
        sortText: String(index).padStart(4, "0"),
        textEdit: {
          range: toRange(document.lines, offer.span, context.client.encoding),
          newText: snippet ?? offer.text,
        },
        insertTextFormat: snippet === undefined ? InsertTextFormat.PlainText : InsertTextFormat.Snippet,
      };
    });
  });
}
