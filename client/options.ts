/**
 * What the client asks of any server, on the desktop and in the browser alike: which documents it speaks about, how often a fallen
 * server is started again, and the one setting the client obeys by itself.
 */
import { workspace } from "vscode";
import type { LanguageClientOptions } from "vscode-languageclient";

export const languageId = "isthmus";

/** After this many falls within three minutes the client gives up and says so. */
const restartsInThreeMinutes = 4;

export function clientOptions(): LanguageClientOptions {
  return {
    documentSelector: [{ language: languageId }],
    diagnosticCollectionName: languageId,
    connectionOptions: { maxRestartCount: restartsInThreeMinutes },
    // Text of a document reaches hovers: no command links and no HTML, whoever wrote it.
    markdown: { isTrusted: false, supportHtml: false },
    middleware: {
      provideInlayHints: (document, range, token, next) =>
        workspace.getConfiguration("isthmus", document).get("inlayHints.enabled", true)
          ? next(document, range, token)
          : [],
    },
  };
}
