/**
 * One analysis for each open text, made when it is asked for and dropped when its text or one it read changes. Imports come from
 * open texts first, then from the reader that was handed in.
 */
import { type Analysis, analyse, type ImportedText, libraryOver } from "../answers/analyse.ts";
import type { Documents, OpenDocument } from "./documents.ts";

/** Reads an import that is not open, by URI; confinement to the library's folder is the reader's. */
export type ReadUri = (from: string, path: string) => ImportedText | Pending;

/** Where imports come from, besides the open texts. */
export interface Files {
  readonly read: ReadUri;
  /** To be called with the URIs the client says have changed. */
  readonly changed?: (uris: readonly string[]) => void;
}

/** An import that was asked for and is not there yet. */
export interface Pending {
  readonly kind: "pending";
  readonly arrives: Promise<void>;
}

export interface Workspace {
  /** Undefined when the text is not open, out of step with the editor, or waits for its imports. */
  analysis(uri: string): Analysis | undefined;
  /** Resolves when the text waits for no import any more; undefined when it does not wait. */
  imports(uri: string): Promise<void> | undefined;
  /** To be called when the text of `uri` changed; every analysis that read it is dropped. */
  changed(uri: string): void;
  /** To be called when files changed outside the editor. */
  filesChanged(): void;
}

export function workspaceOver(documents: Documents, read: ReadUri): Workspace {
  const analyses = new Map<string, Analysis>();
  let pending: Promise<void>[] = [];
  const library = libraryOver((from, path) => {
    const found = read(from, path);
    if (found.kind === "pending") {
      pending.push(found.arrives);
      return { kind: "missing", because: "it is being read" };
    }
    const open = found.kind === "read" ? openAs(documents, found.file) : undefined;
    if (open === undefined) return found;
    return open.inStep
      ? { kind: "read", file: open.uri, text: open.text }
      : { kind: "missing", because: "the editor and the server hold different texts of it" };
  });
  const analysed = (uri: string): Analysis | Promise<unknown> | undefined => {
    const document = documents.get(uri);
    if (document === undefined || !document.inStep) return undefined;
    const known = analyses.get(uri);
    if (known !== undefined) return known;
    pending = [];
    const made = analyse(uri, document.text, library);
    // What was made without an import would speak of a plan that is not the one on the screen.
    if (pending.length > 0) return Promise.all(pending);
    analyses.set(uri, made);
    return made;
  };
  const imports = async (first: Promise<unknown>, uri: string): Promise<void> => {
    for (let waiting: unknown = first; waiting instanceof Promise; waiting = analysed(uri)) await waiting;
  };
  return {
    analysis: (uri) => {
      const made = analysed(uri);
      return made instanceof Promise ? undefined : made;
    },
    imports: (uri) => {
      const made = analysed(uri);
      return made instanceof Promise ? imports(made, uri) : undefined;
    },
    changed: (uri) => {
      const changed = plainUri(uri);
      for (const [file, { texts }] of analyses) {
        if ([file, ...texts.keys()].some((each) => plainUri(each) === changed)) analyses.delete(file);
      }
    },
    filesChanged: () => analyses.clear(),
  };
}

function openAs(documents: Documents, uri: string): OpenDocument | undefined {
  const plain = plainUri(uri);
  return documents.get(uri) ?? documents.all().find((each) => plainUri(each.uri) === plain);
}

/** One spelling of a URI: editors differ in which characters they write as percent codes, and in the case of a drive's letter. */
function plainUri(uri: string): string {
  try {
    return decodeURIComponent(uri).replace(/^file:\/\/\/[A-Z]:/, (drive) => drive.toLowerCase());
  } catch {
    return uri;
  }
}
