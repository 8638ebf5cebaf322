/**
 * The wiring: what the server says it can do, the life of the open texts, and the list of requests. Every answer is made by the
 * engine; each request file only asks it and puts the answer into the protocol's shape.
 */
import {
  type Connection,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  MarkupKind,
  ResponseError,
  TextDocumentSyncKind,
  type WorkspaceFolder,
} from "vscode-languageserver";
import { version } from "../answers/version.ts";
import type { Context } from "./context.ts";
import { openDocuments } from "./documents.ts";
import { readFileMethod } from "./own-requests.ts";
import { codeActionRequest } from "./requests/code-action.ts";
import { completionRequest } from "./requests/completion.ts";
import { definitionRequest } from "./requests/definition.ts";
import { diagnosticRequest, pushDiagnostics } from "./requests/diagnostic.ts";
import { documentSymbolRequest } from "./requests/document-symbol.ts";
import { formattingRequest } from "./requests/formatting.ts";
import { hoverRequest } from "./requests/hover.ts";
import { inlayHintRequest } from "./requests/inlay-hint.ts";
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
];

/** What the reader of files may ask of the server it works for. */
export interface Session {
  readonly connection: Connection;
  /** URIs of the folders that are open. */
  readonly folders: () => readonly string[];
  /** Whether the client announced that it reads files for the server. */
  readonly clientReads: () => boolean;
  /** To be called when a file that was waited for, or changed, has been read. */
  readonly arrived: () => void;
}

export interface RunningServer {
  /** True once the client has said that it is done. */
  readonly isShutDown: () => boolean;
  /** As `Workspace.imports`. */
  readonly imports: (uri: string) => Promise<void> | undefined;
}

export function startServer(connection: Connection, filesOf: (session: Session) => Files): RunningServer {
  let folders: readonly string[] = [];
  const documents = openDocuments();
  const files = filesOf({
    connection,
    folders: () => folders,
    clientReads: () => context.client.readsFiles,
    arrived: () => everythingChanged(context),
  });
  const context: Context = {
    connection,
    documents,
    workspace: workspaceOver(documents, files.read),
    client: {
      encoding: "utf-16",
      pulls: false,
      refreshes: false,
      refreshesHints: false,
      snippets: false,
      markdown: true,
      readsFiles: false,
    },
    phase: "waiting",
  };

  connection.onInitialize((parameters) => {
    if (context.phase !== "waiting") throw new ResponseError(ErrorCodes.InvalidRequest, "initialize comes once");
    context.phase = "running";
    folders = workspaceFolders(parameters);
    context.client = clientOf(parameters);
    return capabilities(context);
  });
  connection.onInitialized(() => {
    connection.workspace.onDidChangeWorkspaceFolders?.(({ added, removed }) => {
      const gone = new Set(removed.map(({ uri }) => uri));
      folders = [...folders.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
      everythingChanged(context);
    });
  });
  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => {
    documents.open(uri, version, text);
    textChanged(context, uri);
  });
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    documents.change(uri, version, contentChanges, context.client.encoding);
    textChanged(context, uri);
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    documents.close(uri);
    textChanged(context, uri);
    if (!context.client.pulls) void connection.sendDiagnostics({ uri, diagnostics: [] });
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    files.changed?.(changes.map(({ uri }) => uri));
    everythingChanged(context);
  });
  connection.onShutdown(() => {
    context.phase = "shut down";
  });
  for (const request of requests) request(context);
  connection.listen();
  return { isShutDown: () => context.phase === "shut down", imports: context.workspace.imports };
}

function textChanged(context: Context, uri: string): void {
  context.workspace.changed(uri);
  if (!context.client.pulls) pushDiagnostics(context);
}

function everythingChanged(context: Context): void {
  context.workspace.filesChanged();
  if (!context.client.pulls) pushDiagnostics(context);
  else if (context.client.refreshes) void context.connection.languages.diagnostics.refresh();
  if (context.client.refreshesHints) void context.connection.languages.inlayHint.refresh();
}

function workspaceFolders(parameters: InitializeParams): string[] {
  const folders: readonly WorkspaceFolder[] = parameters.workspaceFolders ?? [];
  return folders.map(({ uri }) => uri);
}

function clientOf({
  capabilities: { general, textDocument, workspace },
  initializationOptions: options,
}: InitializeParams): Context["client"] {
  const encodings = general?.positionEncodings ?? ["utf-16"];
  return {
    encoding: encodings.includes("utf-16") || !encodings.includes("utf-8") ? "utf-16" : "utf-8",
    pulls: textDocument?.diagnostic !== undefined,
    refreshes: workspace?.diagnostics?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    markdown: textDocument?.hover?.contentFormat?.includes(MarkupKind.Markdown) ?? true,
    readsFiles: options?.[readFileMethod] === true,
  };
}

function capabilities({ client }: Context): InitializeResult {
  return {
    serverInfo: { name: "isthmus", version },
    capabilities: {
      positionEncoding: client.encoding,
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
      ...(client.pulls
        ? { diagnosticProvider: { identifier: "isthmus", interFileDependencies: true, workspaceDiagnostics: false } }
        : {}),
      hoverProvider: true,
      completionProvider: { triggerCharacters: [" "] },
      documentSymbolProvider: { label: "Isthmus" },
      inlayHintProvider: true,
      codeActionProvider: { codeActionKinds: ["quickfix", "refactor.rewrite"] },
      documentFormattingProvider: true,
      definitionProvider: true,
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    },
  };
}
