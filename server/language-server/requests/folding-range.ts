/** `textDocument/foldingRange`. */
import { FoldingRangeKind } from "vscode-languageserver";
import { foldsIn } from "../../answers/folding.ts";
import { analysed, type Context } from "../context.ts";
import { toRange } from "../positions.ts";

export function foldingRangeRequest(context: Context): void {
  context.connection.languages.foldingRange.on(({ textDocument }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { encoding, foldsWithText } = context.client;
    return foldsIn(here.analysis).map(({ span, kind, summary }) => {
      const { start, end } = toRange(here.document.lines, span, encoding);
      return {
        startLine: start.line,
        startCharacter: start.character,
        endLine: end.line,
        endCharacter: end.character,
        ...(kind === "comment" ? { kind: FoldingRangeKind.Comment } : {}),
        ...(foldsWithText && summary !== undefined ? { collapsedText: ` ${summary} ` } : {}),
      };
    });
  });
}
