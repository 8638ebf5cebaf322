/** `workspace/diagnostic`: the findings of every plan, catalogue and protocol in the open folders, the ones that are not open too. */
import { DocumentDiagnosticReportKind, type WorkspaceDocumentDiagnosticReport } from "vscode-languageserver";
import type { Facts } from "../../answers/facts.ts";
import { linesOf } from "../../answers/lines.ts";
import type { Context } from "../context.ts";
import { everyFact } from "../library-walk.ts";
import { protocolDiagnostic } from "./diagnostic.ts";

export function workspaceDiagnosticRequest(context: Context): void {
  // What a file's findings were made from: the same facts, the same report.
  const told = new Map<string, { readonly facts: Facts["findings"]; readonly resultId: string }>();
  let last = 0;
  context.connection.languages.diagnostics.onWorkspace(async ({ previousResultIds }, token, progress) => {
    const files = await everyFact(context, token, progress, "Checking the plans");
    const known = new Map(previousResultIds.map(({ uri, value }) => [uri, value]));
    const items = files.map((facts): WorkspaceDocumentDiagnosticReport => {
      const uri = facts.file;
      const version = context.documents.get(uri)?.version ?? null;
      const before = told.get(uri);
      if (before?.facts === facts.findings && before.resultId === known.get(uri)) {
        return { kind: DocumentDiagnosticReportKind.Unchanged, uri, version, resultId: before.resultId };
      }
      last += 1;
      const resultId = `${last}`;
      told.set(uri, { facts: facts.findings, resultId });
      const document = { lines: linesOf(facts.text) };
      const diagnostics = facts.findings.map((finding) => protocolDiagnostic(context, document, facts, finding));
      return { kind: DocumentDiagnosticReportKind.Full, uri, version, resultId, items: diagnostics };
    });
    const there = new Set(files.map(({ file }) => file));
    const gone = [...known.keys()].filter((uri) => !there.has(uri));
    for (const uri of gone) told.delete(uri);
    const emptied = gone.map((uri): WorkspaceDocumentDiagnosticReport => {
      return { kind: DocumentDiagnosticReportKind.Full, uri, version: null, items: [] };
    });
    return { items: [...items, ...emptied] };
  });
}
