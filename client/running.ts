/** What is done with a client wherever its server runs: the commands, the status, the files read for it, its start and its end. */
import { type ExtensionContext, l10n, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { registerCommands, restart } from "./commands.ts";
import { answerReads } from "./files.ts";
import { keepSameText } from "./same-text.ts";
import { showStatus } from "./status.ts";

let client: BaseLanguageClient | undefined;

export async function running(context: ExtensionContext, started: BaseLanguageClient): Promise<void> {
  client = started;
  registerCommands(context, started);
  showStatus(context, started);
  context.subscriptions.push(
    answerReads(started),
    keepSameText(started),
    workspace.onDidGrantWorkspaceTrust(() => restart(started)),
  );
  try {
    await started.start();
  } catch (failure) {
    // The commands stay, so that the log can be read and a restart tried.
    started.error(l10n.t("The language server did not start."), failure, "force");
  }
}

export async function stopRunning(): Promise<void> {
  await client?.dispose();
  client = undefined;
}
