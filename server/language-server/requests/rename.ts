/** `textDocument/prepareRename` and `textDocument/rename`; why a name has to stay is said by an error that the editor shows. */
import { LSPErrorCodes, ResponseError } from "vscode-languageserver";
import { factsOf } from "../../answers/facts.ts";
import { renamableAt, renamed } from "../../answers/rename.ts";
import { analysed, type Context, requireUnchanged } from "../context.ts";
import { everyFact } from "../library-walk.ts";
import { editOfFiles } from "../places.ts";
import { fromProtocol, toRange } from "../positions.ts";

export function renameRequest(context: Context): void {
  context.connection.onPrepareRename(({ textDocument, position }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { lines } = here.document;
    const found = renamableAt(here.analysis, fromProtocol(lines, position, context.client.encoding));
    if (found === undefined) return null;
    if ("refused" in found) throw refusal(found.refused);
    return { range: toRange(lines, found.span, context.client.encoding), placeholder: found.name };
  });

  context.connection.onRenameRequest(async ({ textDocument, position, newName }, token, progress) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    const { analysis, document } = here;
    const offset = fromProtocol(document.lines, position, context.client.encoding);
    const found = renamableAt(analysis, offset);
    if (found === undefined) return null;
    const isShared = !("refused" in found) && found.shared;
    const files = isShared ? await everyFact(context, token, progress, `Renaming ${found.name}`) : [factsOf(analysis)];
    requireUnchanged(context, document);
    const result = renamed(analysis, offset, newName, files);
    if (result === undefined) return null;
    if ("refused" in result) throw refusal(result.refused);
    const texts = new Map(files.map(({ file, text }) => [file, text]));
    return editOfFiles(context, document.uri, result.edits, (uri) => texts.get(uri) ?? analysis.texts.get(uri));
  });
}

function refusal(because: string): ResponseError {
  return new ResponseError(LSPErrorCodes.RequestFailed, because);
}
