/** `textDocument/selectionRange`. */
import type { SelectionRange } from "vscode-languageserver";
import { selectionsAt } from "../../answers/selection.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol, toRange } from "../positions.ts";

export function selectionRangeRequest(context: Context): void {
  context.connection.onSelectionRanges(({ textDocument, positions }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { encoding } = context.client;
    const { lines } = here.document;
    return positions.map((position): SelectionRange => {
      const offset = fromProtocol(lines, position, encoding);
      const nested = selectionsAt(here.analysis, offset).reduceRight<SelectionRange | undefined>(
        (parent, span) => ({ range: toRange(lines, span, encoding), ...(parent === undefined ? {} : { parent }) }),
        undefined,
      );
      return nested ?? { range: toRange(lines, { start: offset, end: offset }, encoding) };
    });
  });
}
