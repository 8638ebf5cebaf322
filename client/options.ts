/**
 * What the client asks of any server, on the desktop and in the browser alike: which documents it speaks about, what
 * the client does for it, and how often a fallen server is started again.
 */
import { l10n, workspace } from "vscode";
import { CloseAction, ErrorAction, type ErrorHandler, type LanguageClientOptions } from "vscode-languageclient";
import { revisionsMethod } from "../server/language-server/own-requests.ts";
import { afterFall, mostFalls } from "./falls.ts";
import { readsFiles } from "./files.ts";
import { hintMiddleware } from "./hints.ts";

export const languageId = "isthmus";

/** Messages that fail one after the other before a wire is cut. */
const mostErrors = 100;

export const clientOptions = (): LanguageClientOptions => ({
  documentSelector: schemes().map((scheme) => ({ scheme, language: languageId })),
  // Asked at every start: git is for folders whose authors are trusted.
  initializationOptions: () => ({ ...readsFiles, [revisionsMethod]: workspace.isTrusted }),
  diagnosticCollectionName: languageId,
  errorHandler: startingAgain(),
  // Text of a document reaches hovers: no command links and no HTML, whoever wrote it.
  markdown: { isTrusted: false, supportHtml: false },
  middleware: hintMiddleware,
});

function startingAgain(): ErrorHandler {
  let falls: readonly number[] = [];
  return {
    // Of a server that has just ended every message on its way fails: its end follows, is counted and is told. A wire that fails for
    // ever is cut.
    error: (_error, _message, count) => ({
      action: count !== undefined && count <= mostErrors ? ErrorAction.Continue : ErrorAction.Shutdown,
      handled: true,
    }),
    closed: () => {
      const next = afterFall(falls, performance.now());
      falls = next.startAgain ? next.falls : [];
      if (next.startAgain) return { action: CloseAction.Restart };
      const message = l10n.t(
        "The server ended {0} times within three minutes and stays stopped: nothing is checked, numbers may be old.",
        mostFalls,
      );
      return { action: CloseAction.DoNotRestart, message };
    },
  };
}

/** Of texts somebody writes: not of an older state beside them, nor of a change that is looked at before it is made. */
function schemes(): readonly string[] {
  const folders = (workspace.workspaceFolders ?? []).map(({ uri }) => uri.scheme);
  return [...new Set(["file", "untitled", ...folders])];
}
