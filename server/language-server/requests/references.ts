/** `textDocument/references`. */
import { isShared, mentionsHere, mentionsOf, nameAt } from "../../answers/names.ts";
import { analysed, type Context, requireUnchanged } from "../context.ts";
import { everyFact } from "../library-walk.ts";
import { locator } from "../places.ts";
import { fromProtocol } from "../positions.ts";

export function referencesRequest(context: Context): void {
  context.connection.onReferences(async ({ textDocument, position, context: asked }, token, progress) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const name = nameAt(here.analysis, fromProtocol(here.document.lines, position, context.client.encoding));
    if (name === undefined) return null;
    const mentions = isShared(name)
      ? mentionsOf(name, await everyFact(context, token, progress, `Looking for ${name.name}`), here.analysis.file)
      : mentionsHere(here.analysis, name);
    requireUnchanged(context, here.document);
    // A bibliography is no document of the library: its entry is in none of the files that were looked through.
    const entry =
      name.kind === "citation" && name.declared !== undefined ? [{ place: name.declared, declares: true }] : [];
    const wanted = [...entry, ...mentions].filter(({ declares }) => asked.includeDeclaration || !declares);
    return wanted.map(({ place }) => place).map(locator(context, (uri) => context.workspace.text(uri)));
  });
}
