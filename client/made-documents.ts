/** The commands that show documents the server makes for reading. What stands in them is the server's to say. */
import { l10n, Uri, window, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import {
  type MadeDocument,
  type RevisionsAnswer,
  type RevisionsQuestion,
  readOnlyScheme,
  readOnlyUri,
  revisionsMethod,
} from "../server/language-server/own-requests.ts";
import { languageId } from "./options.ts";

export async function showMade(kind: "printed" | "expanded"): Promise<void> {
  const of = shownDocument();
  if (of !== undefined) await show({ kind, of });
}

/** Of the revisions in which the plan changed, the one the reader picks. */
export async function showRevision(client: BaseLanguageClient): Promise<void> {
  const of = shownDocument();
  if (of === undefined) return;
  if (!workspace.isTrusted) {
    await window.showInformationMessage(
      l10n.t("Revisions are shown once the folder is trusted: git reads its settings."),
    );
    return;
  }
  const question: RevisionsQuestion = { uri: of };
  const answer = await client.sendRequest<RevisionsAnswer>(revisionsMethod, question);
  if ("because" in answer) {
    await window.showInformationMessage(l10n.t("There are no revisions to show: {0}", answer.because));
    return;
  }
  const picked = await window.showQuickPick(
    answer.revisions.map(({ id, date, subject }) => ({ label: subject, description: `${date} ${id}`, id })),
    { placeHolder: l10n.t("Revision to show"), matchOnDescription: true },
  );
  if (picked !== undefined) await show({ kind: "revision", of, revision: picked.id });
}

/** The URI of the plan, catalogue or protocol in the active editor. */
function shownDocument(): string | undefined {
  const document = window.activeTextEditor?.document;
  if (document?.languageId === languageId && document.uri.scheme !== readOnlyScheme) return document.uri.toString();
  void window.showInformationMessage(l10n.t("Open a plan first."));
  return undefined;
}

async function show(made: MadeDocument): Promise<void> {
  await window.showTextDocument(Uri.parse(readOnlyUri(made), true), { preview: true });
}
