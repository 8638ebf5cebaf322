/** The browser entry of the VS Code extension: the same server in a worker. What is shared with the desktop is in `running.ts`. */
import { type ExtensionContext, Uri } from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { clientOptions } from "./options.ts";
import { running, stopRunning } from "./running.ts";

/** Of the browser; the types of Node, which the tree is checked with, know the name alone. */
declare const Worker: new (address: string) => ConstructorParameters<typeof LanguageClient>[2];

export function activate(context: ExtensionContext): Promise<void> {
  const worker = new Worker(Uri.joinPath(context.extensionUri, "dist/language-server.browser.js").toString(true));
  return running(context, new LanguageClient("isthmus", "Isthmus", worker, clientOptions(context)));
}

export function deactivate(): Promise<void> {
  return stopRunning();
}
