/** The browser entry of the VS Code extension: the same server in a worker. What is shared with the desktop is in `running.ts`. */
import { type ExtensionContext, Uri, workspace } from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { clientOptions } from "./options.ts";
import { running, stopRunning } from "./running.ts";

/** Of the browser; the types of Node, which the tree is checked with, know the name alone. */
declare const Worker: new (address: string) => ConstructorParameters<typeof LanguageClient>[2];

export async function activate(context: ExtensionContext): Promise<void> {
  const client = new LanguageClient("isthmus", "Isthmus", await startWorker(context), clientOptions());
  await running(context, client);
}

export function deactivate(): Promise<void> {
  return stopRunning();
}

/** From the bytes of the bundle: a workbench starts no worker from the address of an extension that lies on another host. */
async function startWorker(context: ExtensionContext): Promise<InstanceType<typeof Worker>> {
  const bundle = Uri.joinPath(context.extensionUri, "dist", "language-server.browser.js");
  const program = new Blob([await workspace.fs.readFile(bundle)], { type: "text/javascript" });
  return new Worker(URL.createObjectURL(program));
}
