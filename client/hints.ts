/** The setting for inlay hints: asks the server for none while it is off, and asks anew when it is changed. */
import { type ExtensionContext, type TextDocument, window, workspace } from "vscode";
import { type BaseLanguageClient, InlayHintRequest, type Middleware } from "vscode-languageclient";

const setting = "isthmus.inlayHints.enabled";

export const hintMiddleware: Middleware = {
  provideInlayHints: (document, range, token, next) => (wanted(document) ? next(document, range, token) : []),
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
