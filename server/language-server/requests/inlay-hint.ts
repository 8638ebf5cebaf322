/** `textDocument/inlayHint`. */
import { hintsIn } from "../../answers/hints.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol, toProtocol } from "../positions.ts";

export function inlayHintRequest(context: Context): void {
  context.connection.languages.inlayHint.on(({ textDocument, range }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { encoding } = context.client;
    const { lines } = here.document;
    const span = { start: fromProtocol(lines, range.start, encoding), end: fromProtocol(lines, range.end, encoding) };
    return hintsIn(here.analysis, span).map(({ offset, label, tooltip }) => ({
      position: toProtocol(lines, offset, encoding),
      label,
      tooltip,
      paddingLeft: true,
    }));
  });
}
