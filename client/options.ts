/**
 * What the client asks of any server, on the desktop and in the browser alike: which documents it speaks about, which files
 * it is told of, and how often a fallen server is started again.
 */
import { type ExtensionContext, workspace } from "vscode";
import type { LanguageClientOptions } from "vscode-languageclient";
import { readsFiles } from "./files.ts";
import { hintMiddleware } from "./hints.ts";

export const languageId = "isthmus";

/** After this many falls within three minutes the client gives up and says so. */
const restartsInThreeMinutes = 4;

/** Files whose change on the disk may change what is found in an open plan. */
const watched = "**/{*.isthmus,*.bib,isthmus.json}";

export function clientOptions(context: ExtensionContext): LanguageClientOptions {
  const watcher = workspace.createFileSystemWatcher(watched);
  context.subscriptions.push(watcher);
  return {
    documentSelector: [{ language: languageId }],
    synchronize: { fileEvents: watcher },
    initializationOptions: readsFiles,
    diagnosticCollectionName: languageId,
    connectionOptions: { maxRestartCount: restartsInThreeMinutes },
    // Text of a document reaches hovers: no command links and no HTML, whoever wrote it.
    markdown: { isTrusted: false, supportHtml: false },
    middleware: hintMiddleware,
  };
}
