/**
 * One analysis for each open text, made when it is asked for and dropped when its text or one it read changes. Imports come from
 * open texts first, then from the reader that was handed in.
 */
import { onceForEach } from "../../grammar/once.ts";
import { type Analysis, analyse, type ImportedText, libraryOver } from "../answers/analyse.ts";
import { type Facts, factsOf } from "../answers/facts.ts";
import type { NotKept, Revision } from "../files/revisions.ts";
import type { Documents, OpenDocument } from "./documents.ts";

/** Reads an import that is not open, by URI; confinement to the library's folder is the reader's. */
export type ReadUri = (from: string, path: string) => ImportedText | Pending;

/** Where imports come from, besides the open texts. */
export interface Files {
  readonly read: ReadUri;
  /** To be called with the URIs the client says have changed. */
  readonly changed?: (uris: readonly string[]) => void;
  /** URIs of every plan, catalogue and protocol in the open folders; absent where nothing can list them. */
  readonly all?: () => readonly string[];
  /** Brings what `all` and `text` tell then, where it has to be asked for; `isWatched` when `changed` tells of every change. */
  readonly gather?: (isWatched: boolean) => Promise<void>;
  /** The text of any file in the open folders. */
  readonly text?: (uri: string) => string | undefined;
  readonly revisions?: Revisions;
}

/** What git keeps of a file in the open folders. */
export interface Revisions {
  readonly list: (uri: string) => Promise<readonly Revision[] | NotKept>;
  readonly text: (uri: string, revision: string) => Promise<{ readonly text: string } | NotKept>;
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
  /** To be called when files changed outside the editor: with their URIs, or without when it is not known which. */
  filesChanged(uris?: readonly string[]): void;
  /** To be waited for before the files of the folders are asked about. */
  gather(): Promise<void>;
  /** URIs of the open texts and of every other file in the open folders. */
  library(): readonly string[];
  /**
   * What is kept of an open text or of a file in the folders; undefined when it cannot be read or is out of step, a promise when it
   * waits for its imports.
   */
  facts(uri: string): Facts | Promise<unknown> | undefined;
  /** The text of an open document or of a file in the folders. */
  text(uri: string): string | undefined;
}

/** An analysis holds half a megabyte; of more open texts than this the ones not asked about for longest are analysed anew when they are. */
const mostAnalyses = 50;

export function workspaceOver(
  documents: Documents,
  { read, all, gather, text }: Files,
  isWatched: () => boolean,
): Workspace {
  const analyses = new Map<string, Analysis>();
  const kept = new Map<string, Facts>();
  const ofOpen = new Map<string, { readonly document: OpenDocument; readonly facts: Facts }>();
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
    if (known !== undefined) {
      // The one asked for last goes to the end, so that the first is the oldest.
      analyses.delete(uri);
      analyses.set(uri, known);
      return known;
    }
    pending = [];
    const made = analyse(uri, document.text, library);
    // What was made without an import would speak of a plan that is not the one on the screen.
    if (pending.length > 0) {
      const arrival = Promise.all(pending);
      // Whoever waits for it is told of a failure; where nobody waits it must not end the process.
      arrival.catch(() => undefined);
      return arrival;
    }
    analyses.set(uri, made);
    const [oldest] = analyses.keys();
    if (analyses.size > mostAnalyses && oldest !== undefined) analyses.delete(oldest);
    return made;
  };
  // At every keystroke all that is kept is asked; the spelling of its sources stays as it is.
  const sourcesOf = onceForEach((texts: Facts["texts"]): readonly string[] => [...texts.keys()].map(plainUri));
  const drop = (uris: readonly string[]): void => {
    const changed = new Set(uris.map(plainUri));
    const concerns = (made: Pick<Facts, "texts">): boolean => sourcesOf(made.texts).some((each) => changed.has(each));
    for (const [file, analysis] of analyses) if (concerns(analysis)) analyses.delete(file);
    for (const [file, { facts }] of ofOpen) if (concerns(facts)) ofOpen.delete(file);
    for (const [file, facts] of kept) {
      // A file that was missing may be there now.
      if (concerns(facts) || facts.paths.some(({ leads }) => leads === undefined)) kept.delete(file);
    }
  };
  const textOf = (uri: string): string | undefined => openAs(documents, uri)?.text ?? text?.(uri);
  // Where nobody tells of files that changed, what was kept is held against the files before it is believed.
  const isStill = ({ texts, paths }: Facts): boolean =>
    paths.every(({ leads }) => leads !== undefined) && [...texts].every(([file, was]) => textOf(file) === was);
  const factsOfOpen = (document: OpenDocument): Facts | Promise<unknown> | undefined => {
    const known = ofOpen.get(document.uri);
    if (known?.document === document) return known.facts;
    const analysis = analysed(document.uri);
    if (analysis === undefined || analysis instanceof Promise) return analysis;
    const facts = factsOf(analysis);
    ofOpen.set(document.uri, { document, facts });
    return facts;
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
    changed: (uri) => drop([uri]),
    filesChanged: (uris) => {
      analyses.clear();
      ofOpen.clear();
      if (uris === undefined) kept.clear();
      else drop(uris);
    },
    gather: () => gather?.(isWatched()) ?? Promise.resolve(),
    library: () => {
      const open = documents.all().map(({ uri }) => uri);
      const plain = new Set(open.map(plainUri));
      return [...open, ...(all?.() ?? []).filter((uri) => !plain.has(plainUri(uri)))];
    },
    facts: (uri) => {
      const open = openAs(documents, uri);
      if (open !== undefined) return factsOfOpen(open);
      const known = kept.get(uri);
      if (known !== undefined && (isWatched() || isStill(known))) return known;
      const found = text?.(uri);
      pending = [];
      const made = found === undefined ? undefined : factsOf(analyse(uri, found, library));
      if (pending.length > 0) return Promise.all(pending);
      if (made === undefined) return undefined;
      kept.set(uri, made);
      return made;
    },
    text: textOf,
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
