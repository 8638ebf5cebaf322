/** A language server that parses nothing: what any server costs that takes a change and answers with an empty list. */
import {
  createConnection,
  DocumentDiagnosticReportKind,
  StreamMessageReader,
  StreamMessageWriter,
  TextDocumentSyncKind,
} from "vscode-languageserver/node";

const connection = createConnection(new StreamMessageReader(process.stdin), new StreamMessageWriter(process.stdout));
connection.onInitialize(() => ({
  capabilities: {
    textDocumentSync: TextDocumentSyncKind.Incremental,
    diagnosticProvider: { interFileDependencies: false, workspaceDiagnostics: false },
  },
}));
connection.onDidOpenTextDocument(() => {});
connection.onDidChangeTextDocument(() => {});
connection.languages.diagnostics.on(() => ({ kind: DocumentDiagnosticReportKind.Full, items: [] }));
connection.listen();
