/**
 * `textDocument/codeAction`: the fixes of the findings in a range, and proposals from the measures. A proposal is searched for only
 * where a client asks for refactorings, or the range touches a line that a proposal writes anew.
 */
import { type CodeAction, type CodeActionContext, CodeActionKind, type WorkspaceEdit } from "vscode-languageserver";
import type { Edit } from "../../../grammar/problems.ts";
import { fixesIn } from "../../answers/fixes.ts";
import { proposedChanges, touchesProposed } from "../../answers/propose-edits.ts";
import { analysed, type Context } from "../context.ts";
import type { OpenDocument } from "../documents.ts";
import { fromProtocol, toRange } from "../positions.ts";
import { protocolDiagnostic } from "./diagnostic.ts";

export function codeActionRequest(context: Context): void {
  context.connection.onCodeAction(({ textDocument, range, context: asked }): CodeAction[] | null => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { encoding } = context.client;
    const { document, analysis } = here;
    const { lines } = document;
    const span = { start: fromProtocol(lines, range.start, encoding), end: fromProtocol(lines, range.end, encoding) };
    const fixes = wants(asked, CodeActionKind.QuickFix) ? fixesIn(analysis, span) : [];
    const isProposing =
      wants(asked, CodeActionKind.RefactorRewrite) && (asked.only !== undefined || touchesProposed(analysis, span));
    return [
      ...fixes.map(({ title, edits, finding, preferred }) => ({
        title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [protocolDiagnostic(context, document, analysis, finding)],
        isPreferred: preferred,
        edit: workspaceEdit(context, document, edits),
      })),
      ...(isProposing ? proposedChanges(analysis) : []).map(({ title, edits }) => ({
        title,
        kind: CodeActionKind.RefactorRewrite,
        edit: workspaceEdit(context, document, edits),
      })),
    ];
  });
}

/** A kind asked for stands for the kinds below it too; the empty one for all. */
function wants({ only }: CodeActionContext, kind: CodeActionKind): boolean {
  return only === undefined || only.some((asked) => asked === "" || kind === asked || kind.startsWith(`${asked}.`));
}

function workspaceEdit(context: Context, document: OpenDocument, edits: readonly Edit[]): WorkspaceEdit {
  const changes = edits.map(({ span, text }) => ({
    range: toRange(document.lines, span, context.client.encoding),
    newText: text,
  }));
  return { documentChanges: [{ textDocument: { uri: document.uri, version: document.version }, edits: changes }] };
}
