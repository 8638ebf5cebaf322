/** `textDocument/documentSymbol`. */
import { type DocumentSymbol, SymbolKind } from "vscode-languageserver";
import { type OutlineEntry, outlineOf } from "../../answers/outline.ts";
import { analysed, type Context } from "../context.ts";
import { toRange } from "../positions.ts";

const kinds: Readonly<Record<OutlineEntry["kind"], SymbolKind>> = {
  document: SymbolKind.File,
  block: SymbolKind.Namespace,
  step: SymbolKind.Event,
  value: SymbolKind.Number,
  statement: SymbolKind.Property,
};

export function documentSymbolRequest(context: Context): void {
  context.connection.onDocumentSymbol(({ textDocument }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const protocolSymbol = (symbol: OutlineEntry): DocumentSymbol => ({
      name: symbol.name,
      detail: symbol.detail,
      kind: kinds[symbol.kind],
      range: toRange(here.document.lines, symbol.span, context.client.encoding),
      selectionRange: toRange(here.document.lines, symbol.wordSpan, context.client.encoding),
      children: symbol.children.map(protocolSymbol),
    });
    return outlineOf(here.analysis).map(protocolSymbol);
  });
}
