/**
 * The wiring: the life of the open texts, and the list of requests. Every answer is made by the
 * engine; each request file only asks it and puts the answer into the protocol's shape.
 */
import {
  CodeLensRefreshRequest,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  ErrorCodes,
  type InitializeParams,
  ResponseError,
  type WorkspaceFolder,
} from "vscode-languageserver";
import { capabilitiesFor, clientOf, nothingKnown, watchedFiles } from "./capabilities.ts";
import { type Context, contentModified } from "./context.ts";
import { openDocuments } from "./documents.ts";
import { readOnlyScheme } from "./own-requests.ts";
import { callHierarchyRequest } from "./requests/call-hierarchy.ts";
import { codeActionRequest } from "./requests/code-action.ts";
import { codeLensRequest } from "./requests/code-lens.ts";
import { completionRequest } from "./requests/completion.ts";
import { definitionRequest } from "./requests/definition.ts";
import { diagnosticRequest, pushDiagnostics } from "./requests/diagnostic.ts";
import { documentHighlightRequest } from "./requests/document-highlight.ts";
import { documentLinkRequest } from "./requests/document-link.ts";
import { documentSymbolRequest } from "./requests/document-symbol.ts";
import { foldingRangeRequest } from "./requests/folding-range.ts";
import { formattingRequest } from "./requests/formatting.ts";
import { hoverRequest } from "./requests/hover.ts";
import { inlayHintRequest } from "./requests/inlay-hint.ts";
import { linkedEditingRangeRequest } from "./requests/linked-editing-range.ts";
import { referencesRequest } from "./requests/references.ts";
import { renameRequest } from "./requests/rename.ts";
import { selectionRangeRequest } from "./requests/selection-range.ts";
import { semanticTokensRequest } from "./requests/semantic-tokens.ts";
import { signatureHelpRequest } from "./requests/signature-help.ts";
import { renewMadeDocuments, textDocumentContentRequest } from "./requests/text-document-content.ts";
import { textHashRequest } from "./requests/text-hash.ts";
import { willRenameFilesRequest } from "./requests/will-rename-files.ts";
import { workspaceDiagnosticRequest } from "./requests/workspace-diagnostic.ts";
import { workspaceSymbolRequest } from "./requests/workspace-symbol.ts";
import { noRuleLink, type RuleLink } from "./rule-links.ts";
import { section, settingsOver } from "./settings.ts";
import { outdatedMethod, type Texts } from "./waiting.ts";
import { type Files, workspaceOver } from "./workspace.ts";

const requests: readonly ((context: Context) => void)[] = [
  codeActionRequest,
  completionRequest,
  definitionRequest,
  diagnosticRequest,
  documentSymbolRequest,
  formattingRequest,
  hoverRequest,
  inlayHintRequest,
  callHierarchyRequest,
  codeLensRequest,
  documentHighlightRequest,
  documentLinkRequest,
  foldingRangeRequest,
  linkedEditingRangeRequest,
  referencesRequest,
  renameRequest,
  selectionRangeRequest,
  semanticTokensRequest,
  signatureHelpRequest,
  textDocumentContentRequest,
  willRenameFilesRequest,
  workspaceDiagnosticRequest,
  workspaceSymbolRequest,
];

/** What the reader of files may ask of the server it works for. */
export interface Session {
  readonly connection: Connection;
  /** URIs of the folders that are open. */
  readonly folders: () => readonly string[];
  /** Whether the client announced that it reads files for the server. */
  readonly clientReads: () => boolean;
  /** Whether the client announced that it lists the files of its folders. */
  readonly clientLists: () => boolean;
  /** To be called when a file that was waited for, or changed, has been read. */
  readonly arrived: (uri: string) => void;
}

export interface RunningServer extends Texts {
  /** True once the client has said that it is done. */
  readonly isShutDown: () => boolean;
}

export function startServer(
  connection: Connection,
  filesOf: (session: Session) => Files,
  ruleLink: RuleLink = noRuleLink,
): RunningServer {
  let folders: readonly string[] = [];
  const documents = openDocuments();
  const files = filesOf({
    connection,
    folders: () => folders,
    clientReads: () => context.client.readsFiles,
    clientLists: () => context.client.listsFiles,
    arrived: (uri) => everythingChanged(context, [uri]),
  });
  const context: Context = {
    connection,
    documents,
    workspace: workspaceOver(documents, files, () => context.client.registersWatching),
    folders: () => folders,
    settings: settingsOver(connection, () => context.client.configures),
    ruleLink,
    revisions: files.revisions,
    madeDocuments: new Set(),
    client: nothingKnown,
    phase: "waiting",
  };

  connection.onInitialize((parameters) => {
    if (context.phase !== "waiting") throw new ResponseError(ErrorCodes.InvalidRequest, "initialize comes once");
    context.phase = "running";
    folders = workspaceFolders(parameters);
    context.client = clientOf(parameters);
    return capabilitiesFor(context.client);
  });
  connection.onInitialized(() => {
    if (context.client.registersWatching) {
      void connection.client.register(DidChangeWatchedFilesNotification.type, {
        watchers: [{ globPattern: watchedFiles }],
      });
    }
    if (context.client.registersSettings)
      void connection.client.register(DidChangeConfigurationNotification.type, { section });
    connection.workspace.onDidChangeWorkspaceFolders?.(({ added, removed }) => {
      const gone = new Set(removed.map(({ uri }) => uri));
      folders = [...folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
      everythingChanged(context);
    });
  });
  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => {
    if (isMade(uri)) return;
    documents.open(uri, version, text);
    textChanged(context, uri);
  });
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    if (isMade(uri)) return;
    documents.change(uri, version, contentChanges, context.client.encoding);
    textChanged(context, uri);
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    if (isMade(uri)) return;
    documents.close(uri);
    textChanged(context, uri);
    if (!context.client.pulls) void connection.sendDiagnostics({ uri, diagnostics: [] });
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    const uris = changes.map(({ uri }) => uri);
    files.changed?.(uris);
    everythingChanged(context, uris);
  });
  connection.onDidChangeConfiguration(() => {
    context.settings.changed();
    if (context.client.refreshesHints) void connection.languages.inlayHint.refresh();
  });
  connection.onShutdown(() => {
    context.phase = "shut down";
  });
  connection.onRequest(outdatedMethod, () => {
    throw contentModified();
  });
  textHashRequest(context, (uri) => {
    textChanged(context, uri);
    if (context.client.pulls && context.client.refreshes) void connection.languages.diagnostics.refresh();
  });
  for (const request of requests) request(context);
  connection.listen();
  return {
    isShutDown: () => context.phase === "shut down",
    imports: context.workspace.imports,
    version: (uri) => documents.get(uri)?.version,
  };
}

/** What the server has made itself is shown, not judged. */
function isMade(uri: string): boolean {
  return uri.startsWith(`${readOnlyScheme}:`);
}

function textChanged(context: Context, uri: string): void {
  context.workspace.changed(uri);
  renewMadeDocuments(context);
  if (!context.client.pulls) pushDiagnostics(context);
}

function everythingChanged(context: Context, uris?: readonly string[]): void {
  context.workspace.filesChanged(uris);
  renewMadeDocuments(context);
  if (!context.client.pulls) pushDiagnostics(context);
  else if (context.client.refreshes) void context.connection.languages.diagnostics.refresh();
  if (context.client.refreshesHints) void context.connection.languages.inlayHint.refresh();
  if (context.client.refreshesLenses) void context.connection.sendRequest(CodeLensRefreshRequest.type);
}

function workspaceFolders(parameters: InitializeParams): string[] {
  const folders: readonly WorkspaceFolder[] = parameters.workspaceFolders ?? [];
  return folders.map(({ uri }) => uri);
}
