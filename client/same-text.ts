/**
 * Holds the open texts against the server's by their hashes. One that differs, because a change was lost on the way, is closed and
 * opened again at the server: until then the server shows no number of it.
 */
import { Disposable, type TextDocument, workspace } from "vscode";
import { type BaseLanguageClient, State } from "vscode-languageclient";
import { type TextHashAnswer, type TextHashQuestion, textHashMethod } from "../server/language-server/own-requests.ts";
import { Comparing } from "./comparing.ts";

export function keepSameText(client: BaseLanguageClient): Disposable {
  const opening = client.getFeature("textDocument/didOpen");
  const closing = client.getFeature("textDocument/didClose");
  const named = (uri: string): TextDocument | undefined =>
    workspace.textDocuments.find((document) => document.uri.toString() === uri);
  const comparing = new Comparing({
    ask: async (uri) => {
      const document = client.state === State.Running ? named(uri) : undefined;
      return document && isSame(client, document);
    },
    repair: (uri) => {
      const document = named(uri);
      if (document === undefined) return;
      // Its name and its text are nobody's business in a log.
      client.warn(`A text of ${document.lineCount} lines is not the server's: it is handed over again.`);
      void closing.getProvider(document)?.send(document);
      void opening.getProvider(document)?.send(document);
    },
  });
  /** Those alone that are open at the server too: not an older state, nor a text made for reading. */
  const look = (document: TextDocument): void => {
    if (opening.getProvider(document) !== undefined) comparing.changed(document.uri.toString());
  };
  return Disposable.from(
    comparing,
    workspace.onDidOpenTextDocument(look),
    workspace.onDidChangeTextDocument(({ document }) => look(document)),
    workspace.onDidCloseTextDocument(({ uri }) => comparing.closed(uri.toString())),
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) for (const document of workspace.textDocuments) look(document);
    }),
  );
}

/** Undefined where half a character stands alone in the text, which has no bytes that both sides could mean. */
async function isSame(client: BaseLanguageClient, document: TextDocument): Promise<boolean | undefined> {
  const text = document.getText();
  const { version } = document;
  if (!text.isWellFormed()) return undefined;
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  const sha256 = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  const asked: TextHashQuestion = { uri: document.uri.toString(), held: { version, sha256 } };
  const answer = await client.sendRequest<TextHashAnswer>(textHashMethod, asked);
  // A text the server has not got is handed over as one that differs.
  return document.version === version ? answer?.inStep === true : undefined;
}
