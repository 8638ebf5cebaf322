/** `textDocument/completion` and `completionItem/resolve`: what an offer would lead to is worked out for the one that is looked at. */
import { type CompletionItem, CompletionItemKind, InsertTextFormat, MarkupKind } from "vscode-languageserver";
import type { Span } from "../../../grammar/tree.ts";
import { type Offer, offersAt } from "../../answers/completion.ts";
import { triedOffer } from "../../answers/tried-offer.ts";
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
  citation: CompletionItemKind.Reference,
};

/** What an offer is tried with; of an older text nothing is tried. */
interface Trial {
  readonly uri: string;
  readonly version: number;
  readonly span: Span;
  readonly text: string;
}

export function completionRequest(context: Context): void {
  context.connection.onCompletion(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { document, analysis } = here;
    const offers = offersAt(analysis, fromProtocol(document.lines, position, context.client.encoding));
    return offers.map((offer, index): CompletionItem => {
      const snippet = context.client.snippets ? offer.snippet : undefined;
      const { span, text, kind } = offer;
      const data: Trial = { uri: document.uri, version: document.version, span, text };
      return {
        label: offer.label,
        kind: kinds[kind],
        detail: offer.detail,
        ...(offer.documentation === undefined ? {} : { documentation: documentation(context, offer.documentation) }),
        // The engine's order is the order of the trade; editors would sort by letters.
        sortText: String(index).padStart(4, "0"),
        textEdit: { range: toRange(document.lines, span, context.client.encoding), newText: snippet ?? text },
        insertTextFormat: snippet === undefined ? InsertTextFormat.PlainText : InsertTextFormat.Snippet,
        ...(kind === "size" || kind === "name" ? { data } : {}),
      };
    });
  });

  context.connection.onCompletionResolve((item) => {
    const { uri, version, span, text } = (item.data ?? {}) as Partial<Trial>;
    if (uri === undefined || span === undefined || text === undefined || item.documentation !== undefined) return item;
    const here = analysed(context, uri);
    if (here === undefined || here.document.version !== version) return item;
    const markdown = triedOffer(here.analysis, span, text);
    return markdown === undefined ? item : { ...item, documentation: documentation(context, markdown) };
  });
}

function documentation({ client }: Context, value: string) {
  return { kind: client.markdown ? MarkupKind.Markdown : MarkupKind.PlainText, value };
}
