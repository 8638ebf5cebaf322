/** `textDocument/linkedEditingRange`. */
import { linkedAt } from "../../answers/highlights.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol, toRange } from "../positions.ts";

export function linkedEditingRangeRequest(context: Context): void {
  context.connection.languages.onLinkedEditingRange(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { encoding } = context.client;
    const { lines } = here.document;
    const spans = linkedAt(here.analysis, fromProtocol(lines, position, encoding));
    if (spans.length === 0) return null;
    return { ranges: spans.map((span) => toRange(lines, span, encoding)), wordPattern: "[A-Za-z][A-Za-z0-9-]*" };
  });
}
