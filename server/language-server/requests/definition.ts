/** `textDocument/definition`. */
import { definitionsAt } from "../../answers/definition.ts";
import { analysed, type Context } from "../context.ts";
import { locator } from "../places.ts";
import { fromProtocol } from "../positions.ts";

export function definitionRequest(context: Context): void {
  context.connection.onDefinition(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { document, analysis } = here;
    const places = definitionsAt(analysis, fromProtocol(document.lines, position, context.client.encoding));
    const locations = places.map(locator(context, (file) => analysis.texts.get(file)));
    return locations.length > 1 ? locations : (locations[0] ?? null);
  });
}
