/** `textDocument/definition`. */
import { definitionAt } from "../../answers/definition.ts";
import { linesOf } from "../../answers/lines.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol, toRange } from "../positions.ts";

export function definitionRequest(context: Context): void {
  context.connection.onDefinition(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { document, analysis } = here;
    const place = definitionAt(analysis, fromProtocol(document.lines, position, context.client.encoding));
    if (place === undefined) return null;
    const lines = linesOf(analysis.texts.get(place.file) ?? "");
    return { uri: place.file, range: toRange(lines, place.span, context.client.encoding) };
  });
}
