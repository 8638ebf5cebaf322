/** What every request needs: the connection, the texts, their analyses, what the client can do, and whether it may ask at all. */
import { type Connection, ErrorCodes, LSPErrorCodes, ResponseError } from "vscode-languageserver";
import type { Analysis } from "../answers/analyse.ts";
import type { Documents, OpenDocument } from "./documents.ts";
import type { Encoding } from "./positions.ts";
import type { RuleLink } from "./rule-links.ts";
import type { Settings } from "./settings.ts";
import type { Revisions, Workspace } from "./workspace.ts";

export interface Client {
  readonly encoding: Encoding;
  /** It asks for diagnostics itself; otherwise they are pushed. */
  readonly pulls: boolean;
  /** It writes what nothing uses, and what is old, in another way. */
  readonly tags: boolean;
  /** It opens what tells of a finding's code. */
  readonly opensCodes: boolean;
  readonly refreshes: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  readonly snippets: boolean;
  /** In hovers and in the text beside an offer. */
  readonly markdown: boolean;
  /** It reads files for a server that cannot. */
  readonly readsFiles: boolean;
  /** The client names the files of its folders to a server that cannot list them. */
  readonly listsFiles: boolean;
  /** Edits of several files can ask to be looked at. */
  readonly annotates: boolean;
  /** What is folded away can show a text of the server's. */
  readonly foldsWithText: boolean;
  /** It shows documents the server makes, and reads them anew when told to. */
  readonly readsMadeDocuments: boolean;
  /** The authors of its folders are trusted, so that git may be asked about them. */
  readonly trustsFolders: boolean;
  /** Parts of a hint can lead somewhere, asked for one by one. */
  readonly resolvesHintParts: boolean;
  /** A coloured stretch may go over a line's end. */
  readonly spansLines: boolean;
  /** It opens a document and selects a stretch when the server asks. */
  readonly showsDocuments: boolean;
  /** It watches files on the server's word. */
  readonly registersWatching: boolean;
  /** It has settings, by folder, to be asked for. */
  readonly configures: boolean;
  /** It tells of changed settings on the server's word. */
  readonly registersSettings: boolean;
}

export interface Context {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly workspace: Workspace;
  readonly settings: Settings;
  readonly ruleLink: RuleLink;
  /** Undefined where there is no git. */
  readonly revisions: Revisions | undefined;
  /** URIs of the documents made for reading that were asked for since any text changed. */
  readonly madeDocuments: Set<string>;
  /** URIs of the open folders. */
  readonly folders: () => readonly string[];
  /** Known from `initialize` on. */
  client: Client;
  phase: "waiting" | "running" | "shut down";
}

/** Refuses a request before `initialize` and after `shutdown`, with the protocol's codes for either. */
export function requireRunning({ phase }: Pick<Context, "phase">): void {
  if (phase === "waiting") throw new ResponseError(ErrorCodes.ServerNotInitialized, "initialize comes first");
  if (phase === "shut down") throw new ResponseError(ErrorCodes.InvalidRequest, "the server is shut down");
}

/** The protocol's answer to a request about a text that changed before it could be answered. */
export function contentModified(): ResponseError {
  return new ResponseError(LSPErrorCodes.ContentModified, "the text has changed since");
}

/** To be called once an answer has waited for something: what was made of an older text must not pass for one of this text. */
export function requireUnchanged({ documents }: Context, { uri, version }: OpenDocument): void {
  if (documents.get(uri)?.version !== version) throw contentModified();
}

/** A text with its analysis; undefined when the text is not open or out of step, and then there is no answer. */
export function analysed(
  context: Context,
  uri: string,
): { readonly document: OpenDocument; readonly analysis: Analysis } | undefined {
  requireRunning(context);
  const document = context.documents.get(uri);
  const analysis = context.workspace.analysis(uri);
  return document === undefined || analysis === undefined ? undefined : { document, analysis };
}
