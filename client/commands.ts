/**
 * The commands of the extension itself, each in its palette entry's words. Commands that need the plan's meaning belong to the
 * server and are not here.
 */
import {
  commands,
  type ExtensionContext,
  env,
  FileSystemError,
  l10n,
  SnippetString,
  Uri,
  window,
  workspace,
} from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { showMade, showRevision } from "./made-documents.ts";
import { newCatalogueSnippet, newPlanSnippet, newProtocolSnippet } from "./new-documents.ts";
import { languageId } from "./options.ts";
import { reportOn } from "./report.ts";

export function registerCommands(context: ExtensionContext, client: BaseLanguageClient): void {
  const register = (name: string, run: () => unknown): void => {
    context.subscriptions.push(commands.registerCommand(`isthmus.${name}`, run));
  };
  register("restartServer", () => restart(client));
  register("showLog", () => client.outputChannel.show());
  register("newPlan", () => begin(newPlanSnippet));
  register("newCatalogue", () => begin(newCatalogueSnippet));
  register("newProtocol", () => begin(newProtocolSnippet));
  register("openSamples", () => openSamples(context));
  register("copySamples", () => copySamples(context.extensionUri));
  register("showPrinted", () => showMade("printed"));
  register("showExpanded", () => showMade("expanded"));
  register("showRevision", () => showRevision(client));
  register("copyReport", () => copyReport(context, client));
}

export async function restart(client: BaseLanguageClient): Promise<void> {
  if (client.needsStop()) await client.stop();
  await client.start();
}

async function begin(snippet: string): Promise<void> {
  const document = await workspace.openTextDocument({ language: languageId });
  const editor = await window.showTextDocument(document);
  await editor.insertSnippet(new SnippetString(snippet));
}

const samples = "samples";
const firstPlan = ["plans", "simple-shaft.isthmus"];

/** A copy to play with in the editor's own storage, new every time, so that nothing anybody wrote is overwritten. */
async function openSamples({ extensionUri, globalStorageUri }: ExtensionContext): Promise<void> {
  const target = Uri.joinPath(globalStorageUri, samples, crypto.randomUUID());
  await workspace.fs.createDirectory(Uri.joinPath(globalStorageUri, samples));
  await workspace.fs.copy(Uri.joinPath(extensionUri, samples), target);
  await window.showTextDocument(Uri.joinPath(target, ...firstPlan));
}

/** Copies the samples to a folder the writer chooses, so that they can be kept, and opens the first plan. Overwrites nothing. */
async function copySamples(extension: Uri): Promise<void> {
  const [folder] =
    (await window.showOpenDialog({
      title: l10n.t("Folder to copy the Isthmus samples into"),
      openLabel: l10n.t("Copy here"),
      canSelectFiles: false,
      canSelectFolders: true,
    })) ?? [];
  if (folder === undefined) return;
  const target = Uri.joinPath(folder, "isthmus-samples");
  try {
    await workspace.fs.copy(Uri.joinPath(extension, samples), target, { overwrite: false });
  } catch (failure) {
    if (!(failure instanceof FileSystemError)) throw failure;
    await window.showErrorMessage(l10n.t("The samples were not copied: {0}", failure.message));
    return;
  }
  await window.showTextDocument(Uri.joinPath(target, ...firstPlan));
}

async function copyReport(context: ExtensionContext, client: BaseLanguageClient): Promise<void> {
  await env.clipboard.writeText(reportOn(context, client));
  await window.showInformationMessage(
    l10n.t("The report is in the clipboard. It holds no text and no name of a plan."),
  );
}
