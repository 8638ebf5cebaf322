/** What the client says it can do, as far as an answer hangs on it, and what the server says it can do in turn. */
import {
  FileOperationPatternKind,
  type InitializeParams,
  type InitializeResult,
  MarkupKind,
  TextDocumentSyncKind,
} from "vscode-languageserver";
import { tokenModifiers, tokenTypes } from "../answers/semantic-tokens.ts";
import { version } from "../answers/version.ts";
import type { Client } from "./context.ts";
import { listFilesMethod, readFileMethod, readOnlyScheme, revisionsMethod } from "./own-requests.ts";
import { showFindingCommand } from "./requests/code-lens.ts";

/** What is taken for granted before `initialize`: nothing. */
export const nothingKnown: Client = {
  encoding: "utf-16",
  pulls: false,
  tags: false,
  opensCodes: false,
  refreshes: false,
  refreshesHints: false,
  refreshesLenses: false,
  snippets: false,
  markdown: true,
  readsFiles: false,
  listsFiles: false,
  annotates: false,
  foldsWithText: false,
  readsMadeDocuments: false,
  trustsFolders: false,
  resolvesHintParts: false,
  spansLines: false,
  showsDocuments: false,
  registersWatching: false,
  configures: false,
  registersSettings: false,
};

export function clientOf({
  capabilities: { general, textDocument, window, workspace },
  initializationOptions: options,
}: InitializeParams): Client {
  const encodings = general?.positionEncodings ?? ["utf-16"];
  return {
    encoding: encodings.includes("utf-16") || !encodings.includes("utf-8") ? "utf-16" : "utf-8",
    pulls: textDocument?.diagnostic !== undefined,
    tags:
      textDocument?.publishDiagnostics?.tagSupport !== undefined || textDocument?.diagnostic?.tagSupport !== undefined,
    opensCodes:
      textDocument?.publishDiagnostics?.codeDescriptionSupport === true ||
      textDocument?.diagnostic?.codeDescriptionSupport === true,
    refreshes: workspace?.diagnostics?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    markdown: textDocument?.hover?.contentFormat?.includes(MarkupKind.Markdown) ?? true,
    readsFiles: options?.[readFileMethod] === true,
    listsFiles: options?.[listFilesMethod] === true,
    annotates: workspace?.workspaceEdit?.changeAnnotationSupport !== undefined,
    foldsWithText: textDocument?.foldingRange?.foldingRange?.collapsedText === true,
    readsMadeDocuments: workspace?.textDocumentContent !== undefined,
    trustsFolders: options?.[revisionsMethod] === true,
    resolvesHintParts: textDocument?.inlayHint?.resolveSupport?.properties.includes("label.location") === true,
    spansLines: textDocument?.semanticTokens?.multilineTokenSupport === true,
    showsDocuments: window?.showDocument?.support === true,
    registersWatching: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    configures: workspace?.configuration === true,
    registersSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
  };
}

/** Files whose change may change what is found in a plan. */
export const watchedFiles = "**/{*.isthmus,*.bib,isthmus.json}";

const moved = [
  { pattern: { glob: "**/*.{isthmus,bib}", matches: FileOperationPatternKind.file } },
  { pattern: { glob: "**", matches: FileOperationPatternKind.folder } },
];

export function capabilitiesFor(client: Client): InitializeResult {
  return {
    serverInfo: { name: "isthmus", version },
    capabilities: {
      positionEncoding: client.encoding,
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
      ...(client.pulls
        ? { diagnosticProvider: { identifier: "isthmus", interFileDependencies: true, workspaceDiagnostics: true } }
        : {}),
      hoverProvider: true,
      completionProvider: { triggerCharacters: [" ", "@"], resolveProvider: true },
      signatureHelpProvider: { triggerCharacters: ["(", ","], retriggerCharacters: [" "] },
      definitionProvider: true,
      referencesProvider: { workDoneProgress: true },
      documentHighlightProvider: true,
      documentSymbolProvider: { label: "Isthmus" },
      workspaceSymbolProvider: { workDoneProgress: true },
      codeActionProvider: {
        codeActionKinds: [
          ...["quickfix", "refactor.extract", "refactor.inline", "refactor.rewrite", "source.fixAll.isthmus"],
        ],
      },
      ...(client.showsDocuments
        ? { codeLensProvider: {}, executeCommandProvider: { commands: [showFindingCommand] } }
        : {}),
      documentLinkProvider: { resolveProvider: true },
      documentFormattingProvider: true,
      documentRangeFormattingProvider: { rangesSupport: true },
      documentOnTypeFormattingProvider: { firstTriggerCharacter: "\n", moreTriggerCharacter: ["}"] },
      renameProvider: { prepareProvider: true, workDoneProgress: true },
      linkedEditingRangeProvider: true,
      foldingRangeProvider: true,
      selectionRangeProvider: true,
      callHierarchyProvider: true,
      inlayHintProvider: { resolveProvider: true },
      semanticTokensProvider: {
        legend: { tokenTypes: [...tokenTypes], tokenModifiers: [...tokenModifiers] },
        full: { delta: true },
        range: true,
      },
      workspace: {
        workspaceFolders: { supported: true, changeNotifications: true },
        ...(client.readsMadeDocuments ? { textDocumentContent: { schemes: [readOnlyScheme] } } : {}),
        fileOperations: { willRename: { filters: moved } },
      },
    },
  };
}
