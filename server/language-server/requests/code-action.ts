/** `textDocument/codeAction`: the fixes of the findings in a range. */
import { type CodeAction, CodeActionKind } from "vscode-languageserver";
import { fixesIn } from "../../answers/fixes.ts";
import { analysed, type Context } from "../context.ts";
import { fromProtocol, toRange } from "../positions.ts";
import { protocolDiagnostic } from "./diagnostic.ts";

export function codeActionRequest(context: Context): void {
  context.connection.onCodeAction(({ textDocument, range }): CodeAction[] | null => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { encoding } = context.client;
    const { document, analysis } = here;
    const { lines } = document;
    const span = { start: fromProtocol(lines, range.start, encoding), end: fromProtocol(lines, range.end, encoding) };
    return fixesIn(analysis, span).map(({ title, edits, finding, preferred }) => ({
      title,
      kind: CodeActionKind.QuickFix,
      diagnostics: [protocolDiagnostic(context, document, analysis, finding)],
      isPreferred: preferred,
      edit: {
        documentChanges: [
          {
            textDocument: { uri: document.uri, version: document.version },
            edits: edits.map((edit) => ({ range: toRange(lines, edit.span, encoding), newText: edit.text })),
          },
        ],
      },
    }));
  });
}
