/**
 * `workspace/textDocumentContent`: documents made for reading, from a text that is open or from a revision of it, and
 * `isthmus/revisions`, which revisions there are. What a document cannot be made of is said in it.
 */
import { TextDocumentContentRefreshRequest } from "vscode-languageserver";
import { expanded } from "../../answers/expanded.ts";
import { fileName } from "../../answers/limit-text.ts";
import { comment, printed } from "../../answers/printed.ts";
import { analysed, type Context, requireRunning } from "../context.ts";
import {
  type MadeDocument,
  madeDocumentOf,
  type RevisionsAnswer,
  type RevisionsQuestion,
  revisionsMethod,
} from "../own-requests.ts";

export function textDocumentContentRequest(context: Context): void {
  context.connection.workspace.textDocumentContent.on(async ({ uri }) => {
    requireRunning(context);
    const made = madeDocumentOf(uri);
    if (made === undefined) return { text: `${comment("There is no such document.")}\n` };
    // A revision stays as it is.
    if (made.kind !== "revision") context.madeDocuments.add(uri);
    return { text: await textOf(context, made) };
  });

  context.connection.onRequest<RevisionsAnswer, void>(revisionsMethod, async ({ uri }: RevisionsQuestion) => {
    requireRunning(context);
    const { revisions } = context;
    if (!context.client.trustsFolders || revisions === undefined) return { because: noRevisions };
    const found = await revisions.list(uri);
    return "because" in found ? found : { revisions: found };
  });
}

/** Asks the client to read anew what was made of any text. It asks for what it still shows, so the rest is told of once and no more. */
export function renewMadeDocuments({ client, connection, madeDocuments }: Context): void {
  if (!client.readsMadeDocuments) return;
  for (const uri of madeDocuments) void connection.sendRequest(TextDocumentContentRefreshRequest.type, { uri });
  madeDocuments.clear();
}

const noRevisions = "revisions are shown on a machine with git, in a folder whose author is trusted";

async function textOf(context: Context, made: MadeDocument): Promise<string> {
  const name = fileName(decodeURIComponent(made.of));
  if (made.kind === "revision") return atRevision(context, made.of, made.revision, name);
  await context.workspace.imports(made.of);
  const here = analysed(context, made.of);
  if (here === undefined) return `${comment(`${name} is not open; this is made from the open text.`)}\n`;
  return made.kind === "printed" ? printed(here.analysis, name) : expanded(here.analysis, name);
}

async function atRevision(context: Context, uri: string, revision: string, name: string): Promise<string> {
  const { revisions } = context;
  const found =
    context.client.trustsFolders && revisions !== undefined
      ? await revisions.text(uri, revision)
      : { because: noRevisions };
  return "text" in found ? found.text : `${comment(`${name} at ${revision} cannot be shown: ${found.because}.`)}\n`;
}
