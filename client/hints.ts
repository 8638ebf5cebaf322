/**
 * Inlay hints on their way to the screen: none while the setting is off, asked for anew when it is changed, and none that belong to an
 * older text. What they say is the server's.
 */
import { type ExtensionContext, type TextDocument, window, workspace } from "vscode";
import { type BaseLanguageClient, InlayHintRequest, type Middleware } from "vscode-languageclient";

const setting = "isthmus.inlayHints.enabled";

export const hintMiddleware: Middleware = {
  provideInlayHints: async (document, range, token, next) => {
    if (!wanted(document)) return [];
    const { version } = document;
    const hints = await next(document, range, token);
    // An answer about an older text is dropped, so that no number stands behind another line; the editor asks again.
    return document.version === version ? hints : [];
  },
};

export function followHintSetting(context: ExtensionContext, client: BaseLanguageClient): void {
  context.subscriptions.push(
    workspace.onDidChangeConfiguration((change) => {
      if (!change.affectsConfiguration(setting)) return;
      const feature = client.getFeature(InlayHintRequest.method);
      const providers = window.visibleTextEditors.map(({ document }) => feature.getProvider(document));
      for (const provider of new Set(providers)) provider?.onDidChangeInlayHints.fire();
    }),
  );
}

function wanted(document: TextDocument): boolean {
  return workspace.getConfiguration(undefined, document).get(setting, true);
}
