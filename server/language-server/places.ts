/** Places of the engine in the protocol's shapes, in texts that may not be the one asked about, and edits of several files. */
import {
  type ChangeAnnotation,
  type Location,
  LSPErrorCodes,
  ResponseError,
  type TextDocumentEdit,
  type WorkspaceEdit,
} from "vscode-languageserver";
import type { Lines } from "../answers/lines.ts";
import { linesOf } from "../answers/lines.ts";
import type { Place } from "../meaning/plan.ts";
import type { Context } from "./context.ts";
import { toRange } from "./positions.ts";

/** Locations in texts by file; a text is broken into lines once. */
export function locator(context: Context, textOf: (file: string) => string | undefined): (place: Place) => Location {
  const known = new Map<string, Lines>();
  return ({ file, span }) => {
    const lines = known.get(file) ?? linesOf(textOf(file) ?? "");
    known.set(file, lines);
    return { uri: file, range: toRange(lines, span, context.client.encoding) };
  };
}

export interface FileEdit {
  readonly place: Place;
  readonly text: string;
}

/**
 * One edit of all these files; those of files other than `here`, when it is given, ask to be looked at first, where the client can.
 * Refused when a text has changed since it was looked at.
 */
export function editOfFiles(
  context: Context,
  here: string | undefined,
  edits: readonly FileEdit[],
  textOf: (file: string) => string | undefined,
): WorkspaceEdit {
  const locate = locator(context, textOf);
  const byFile = new Map<string, TextDocumentEdit["edits"]>();
  for (const { place, text } of edits) {
    const list = byFile.get(place.file) ?? [];
    const edit = { range: locate(place).range, newText: text };
    const isElsewhere = here !== undefined && place.file !== here && context.client.annotates;
    list.push(isElsewhere ? { ...edit, annotationId: elsewhere } : edit);
    byFile.set(place.file, list);
  }
  const documentChanges = [...byFile].map(([uri, list]): TextDocumentEdit => {
    const open = context.documents.get(uri);
    if (open !== undefined && (!open.inStep || open.text !== textOf(uri))) {
      throw new ResponseError(LSPErrorCodes.ContentModified, "a text was changed meanwhile");
    }
    return { textDocument: { uri, version: open?.version ?? null }, edits: list };
  });
  const isAnnotated = documentChanges.some(({ edits: list }) => list.some((edit) => "annotationId" in edit));
  return { documentChanges, ...(isAnnotated ? { changeAnnotations: { [elsewhere]: annotation } } : {}) };
}

const elsewhere = "elsewhere";
const annotation: ChangeAnnotation = {
  label: "In other files",
  description: "The name is said there too.",
  needsConfirmation: true,
};
