/** The task that checks all plans of a folder with the command line in the package, whose findings become problems. Desktop only. */
import {
  type Disposable,
  type ExtensionContext,
  l10n,
  ProcessExecution,
  Task,
  TaskGroup,
  tasks,
  type WorkspaceFolder,
  workspace,
} from "vscode";

const kind = "isthmus";
const matcher = "$isthmus";

export function provideTasks(context: ExtensionContext): Disposable {
  return tasks.registerTaskProvider(kind, {
    provideTasks: () => (workspace.workspaceFolders ?? []).map((folder) => checkTask(context, folder)),
    resolveTask: ({ definition, scope }) =>
      typeof scope === "object"
        ? checkTask(context, scope, definition.paths as readonly string[] | undefined)
        : undefined,
  });
}

/** The editor's own program runs it, as Node. */
function checkTask(context: ExtensionContext, folder: WorkspaceFolder, paths: readonly string[] = ["."]): Task {
  const run = new ProcessExecution(
    process.execPath,
    [context.asAbsolutePath("dist/isthmus.js"), "check", "--fail-on", "warning", ...paths],
    { cwd: folder.uri.fsPath, env: { ELECTRON_RUN_AS_NODE: "1" } },
  );
  const task = new Task({ type: kind, paths }, folder, l10n.t("check all plans"), "Isthmus", run, matcher);
  task.group = TaskGroup.Build;
  return task;
}
