/**
 * What the client asks of any server, on the desktop and in the browser alike: which documents it speaks about, what
 * the client does for it, and how often a fallen server is started again.
 */
import { workspace } from "vscode";
import type { LanguageClientOptions } from "vscode-languageclient";
import { revisionsMethod } from "../server/language-server/own-requests.ts";
import { readsFiles } from "./files.ts";
import { hintMiddleware } from "./hints.ts";

export const languageId = "isthmus";

/** After this many falls within three minutes the client gives up and says so. */
const restartsInThreeMinutes = 4;

export const clientOptions = (): LanguageClientOptions => ({
  documentSelector: schemes().map((scheme) => ({ scheme, language: languageId })),
  // Asked at every start: git is for folders whose authors are trusted.
  initializationOptions: () => ({ ...readsFiles, [revisionsMethod]: workspace.isTrusted }),
  diagnosticCollectionName: languageId,
  connectionOptions: { maxRestartCount: restartsInThreeMinutes },
  // Text of a document reaches hovers: no command links and no HTML, whoever wrote it.
  markdown: { isTrusted: false, supportHtml: false },
  middleware: hintMiddleware,
});

/** Of texts somebody writes: not of an older state beside them, nor of a change that is looked at before it is made. */
function schemes(): readonly string[] {
  const folders = (workspace.workspaceFolders ?? []).map(({ uri }) => uri.scheme);
  return [...new Set(["file", "untitled", ...folders])];
}
