/** `textDocument/documentLink` and `documentLink/resolve`: where a citation stands in its bibliography is looked for when asked. */
import type { DocumentLink } from "vscode-languageserver";
import { linesOf } from "../../answers/lines.ts";
import { entryIn, linksIn } from "../../answers/links.ts";
import { resolveUri } from "../../files/paths.ts";
import { analysed, type Context } from "../context.ts";
import { toRange } from "../positions.ts";

interface Citation {
  readonly uri: string;
  readonly key: string;
}

export function documentLinkRequest(context: Context): void {
  context.connection.onDocumentLinks(({ textDocument }) => {
    const here = analysed(context, textDocument.uri);
    if (here === undefined) return null;
    return linksIn(here.analysis).flatMap(({ span, path, file, key }): DocumentLink[] => {
      const range = toRange(here.document.lines, span, context.client.encoding);
      const found = resolveUri(context.folders(), textDocument.uri, path);
      const target = file ?? ("uri" in found ? found.uri : undefined);
      if (target === undefined) return [];
      if (key === undefined) return [{ range, target, tooltip: "Open the file" }];
      const data: Citation = { uri: target, key };
      return [{ range, tooltip: `Open ${key} in ${path}`, data }];
    });
  });

  context.connection.onDocumentLinkResolve((link) => {
    const { uri, key } = (link.data ?? {}) as Partial<Citation>;
    if (uri === undefined || key === undefined) return link;
    const text = context.workspace.text(uri);
    const at = text === undefined ? undefined : entryIn(text, key);
    const line = text === undefined || at === undefined ? undefined : linesOf(text).position(at).line + 1;
    return { ...link, target: line === undefined ? uri : `${uri}#L${line}` };
  });
}
