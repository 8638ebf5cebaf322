/**
 * What someone who looks for a fault has to know: versions, what runs, settings, how large the open texts are. No text, no title, no
 * path and no name of a plan is in it.
 */
import { type ExtensionContext, env, UIKind, version, workspace } from "vscode";
import { type BaseLanguageClient, State } from "vscode-languageclient";
import { languageId } from "./options.ts";

const states: Readonly<Record<State, string>> = {
  [State.Stopped]: "stopped",
  [State.Starting]: "starting",
  [State.Running]: "running",
  [State.StartFailed]: "failed to start",
};

export function reportOn({ extension }: ExtensionContext, client: BaseLanguageClient): string {
  const open = workspace.textDocuments.filter((document) => document.languageId === languageId);
  const folders = workspace.workspaceFolders ?? [];
  return [
    `Isthmus ${String(extension.packageJSON.version)}`,
    `Editor ${env.appName} ${version}, ${env.uiKind === UIKind.Web ? "in a browser" : "on the desktop"}, language ${env.language}`,
    `Server ${states[client.state]}, ${client.initializeResult?.serverInfo?.version ?? "version unknown"}`,
    `Workspace ${workspace.isTrusted ? "trusted" : "restricted"}, folders ${folders.length} (${schemes(folders.map(({ uri }) => uri.scheme))})`,
    `Settings ${JSON.stringify(workspace.getConfiguration(languageId))}`,
    `Open texts ${open.length}`,
    ...open.map(({ lineCount, version: of, isDirty, uri }) => {
      return `  ${uri.scheme}, ${lineCount} lines, version ${of}${isDirty ? ", not saved" : ""}`;
    }),
    "",
  ].join("\n");
}

function schemes(all: readonly string[]): string {
  return [...new Set(all)].join(", ") || "none";
}
