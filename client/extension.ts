/**
 * The desktop entry of the VS Code extension: starts the language server beside the editor, keeps it running and stops it. Nothing
 * is computed here; what the editor shows comes from the server through the protocol.
 */
import type { ExtensionContext } from "vscode";
import { LanguageClient, type ServerOptions, TransportKind } from "vscode-languageclient/node";
import { registerCommands } from "./commands.ts";
import { followHintSetting } from "./hints.ts";
import { clientOptions } from "./options.ts";
import { showStatus } from "./status.ts";

let client: LanguageClient | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const started = new LanguageClient("isthmus", "Isthmus", serverOptions(context), clientOptions(context));
  client = started;
  registerCommands(context, started);
  followHintSetting(context, started);
  showStatus(context, started);
  try {
    await started.start();
  } catch (failure) {
    // The commands stay, so that the log can be read and a restart tried.
    started.error("The language server did not start.", failure, "force");
  }
}

export async function deactivate(): Promise<void> {
  await client?.dispose();
  client = undefined;
}

/** Over standard input and output, as every other editor starts it, so that there is one way in to prove. */
function serverOptions(context: ExtensionContext): ServerOptions {
  const server = { module: context.asAbsolutePath("dist/language-server.js"), transport: TransportKind.stdio };
  return { run: server, debug: { ...server, options: { execArgv: ["--nolazy", "--enable-source-maps"] } } };
}
