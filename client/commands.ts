/**
 * The commands of the extension itself, each in its palette entry's words. Commands that need the plan's meaning belong to the
 * server and are not here.
 */
import { commands, type ExtensionContext, FileSystemError, SnippetString, Uri, window, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { newPlanSnippet } from "./new-plan.ts";
import { languageId } from "./options.ts";

export function registerCommands(context: ExtensionContext, client: BaseLanguageClient): void {
  context.subscriptions.push(
    commands.registerCommand("isthmus.restartServer", () => restart(client)),
    commands.registerCommand("isthmus.showLog", () => client.outputChannel.show()),
    commands.registerCommand("isthmus.newPlan", newPlan),
    commands.registerCommand("isthmus.copySamples", () => copySamples(context.extensionUri)),
  );
}

async function restart(client: BaseLanguageClient): Promise<void> {
  if (client.needsStop()) await client.stop();
  await client.start();
}

async function newPlan(): Promise<void> {
  const document = await workspace.openTextDocument({ language: languageId });
  const editor = await window.showTextDocument(document);
  await editor.insertSnippet(new SnippetString(newPlanSnippet));
}

/** Copies the samples to a folder the writer chooses, so that they can be changed, and opens the first plan. Overwrites nothing. */
async function copySamples(extension: Uri): Promise<void> {
  const [folder] =
    (await window.showOpenDialog({
      title: "Folder to copy the Isthmus samples into",
      openLabel: "Copy here",
      canSelectFiles: false,
      canSelectFolders: true,
    })) ?? [];
  if (folder === undefined) return;
  const target = Uri.joinPath(folder, "isthmus-samples");
  try {
    await workspace.fs.copy(Uri.joinPath(extension, "samples"), target, { overwrite: false });
  } catch (failure) {
    if (!(failure instanceof FileSystemError)) throw failure;
    await window.showErrorMessage(`The samples were not copied: ${failure.message}`);
    return;
  }
  await window.showTextDocument(Uri.joinPath(target, "plans", "simple-shaft.isthmus"));
}
