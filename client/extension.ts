/**
 * The desktop entry of the VS Code extension: starts the language server beside the editor, keeps it running and stops it. Nothing
 * is computed here; what the editor shows comes from the server through the protocol.
 */
import type { ExtensionContext } from "vscode";
import { LanguageClient, type ServerOptions, TransportKind } from "vscode-languageclient/node";
import { clientOptions } from "./options.ts";
import { running, stopRunning } from "./running.ts";
import { provideTasks } from "./tasks.ts";

export function activate(context: ExtensionContext): Promise<void> {
  context.subscriptions.push(provideTasks(context));
  return running(context, new LanguageClient("isthmus", "Isthmus", serverOptions(context), clientOptions()));
}

export function deactivate(): Promise<void> {
  return stopRunning();
}

/** Over standard input and output, as every other editor starts it, so that there is one way in to prove. */
function serverOptions(context: ExtensionContext): ServerOptions {
  const server = { module: context.asAbsolutePath("dist/language-server.js"), transport: TransportKind.stdio };
  return { run: server, debug: { ...server, options: { execArgv: ["--nolazy", "--enable-source-maps"] } } };
}
