/** The language status item: whether the server runs, and a way to start it again when it does not. It shows no findings. */
import { type ExtensionContext, LanguageStatusSeverity, l10n, languages } from "vscode";
import { type BaseLanguageClient, State } from "vscode-languageclient";
import { languageId } from "./options.ts";

export function showStatus(context: ExtensionContext, client: BaseLanguageClient): void {
  const item = languages.createLanguageStatusItem("isthmus.server", { language: languageId });
  item.name = "Isthmus";
  const show = (state: State): void => {
    item.busy = state === State.Starting;
    item.severity = state === State.Stopped ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
    item.text = state === State.Stopped ? l10n.t("Isthmus is stopped: nothing is checked") : "Isthmus";
    item.detail = l10n.t("Planning and teaching aid, not a medical device");
    item.command = { title: l10n.t("Restart"), command: "isthmus.restartServer" };
  };
  show(client.state);
  context.subscriptions.push(
    item,
    client.onDidChangeState((change) => show(change.newState)),
  );
}
