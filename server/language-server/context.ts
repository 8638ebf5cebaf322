/** What every request needs: the connection, the texts, their analyses, and what the client can do. */
import type { Connection } from "vscode-languageserver";
import type { Analysis } from "../answers/analyse.ts";
import type { Documents, OpenDocument } from "./documents.ts";
import type { Encoding } from "./positions.ts";
import type { Workspace } from "./workspace.ts";

export interface Client {
  readonly encoding: Encoding;
  /** It asks for diagnostics itself; otherwise they are pushed. */
  readonly pulls: boolean;
  readonly refreshes: boolean;
  readonly refreshesHints: boolean;
  readonly snippets: boolean;
  /** In hovers and in the text beside an offer. */
  readonly markdown: boolean;
}

export interface Context {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly workspace: Workspace;
  /** Known from `initialize` on. */
  client: Client;
}

/** A text with its analysis; undefined when the text is not open or out of step, and then there is no answer. */
export function analysed(
  context: Context,
  uri: string,
): { readonly document: OpenDocument; readonly analysis: Analysis } | undefined {
  const document = context.documents.get(uri);
  const analysis = context.workspace.analysis(uri);
  return document === undefined || analysis === undefined ? undefined : { document, analysis };
}
