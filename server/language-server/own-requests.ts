/** Requests between this server and its client that the protocol does not have, with their shapes; the client imports them too. */
import type { NotKept, Revision } from "../files/revisions.ts";

/** From the server: the text of a file by its URI. Sent only to a client that sets this name to true in `initializationOptions`. */
export const readFileMethod = "isthmus/readFile";

export interface FileQuestion {
  readonly uri: string;
  /** In bytes; a larger file is not to be read. */
  readonly largest: number;
}

/** The text, or why there is none, in words that follow "cannot be read: ". */
export type FileAnswer =
  | { readonly text: string }
  | { readonly kind: "missing" | "outside" | "not-a-file" | "not-text"; readonly because: string };

/**
 * From the server: every plan, catalogue, protocol and bibliography in the open folders, by URI. Sent only to a client that sets this
 * name to true in `initializationOptions`.
 */
export const listFilesMethod = "isthmus/listFiles";

/** In any order; at most this many, so that a folder that is no library does not fill the memory. */
export interface ListQuestion {
  readonly most: number;
}

/**
 * From the client: the latest revisions of a document that git keeps. Answered only for a client that sets this name to true in
 * `initializationOptions`, which it must not do for a folder whose author is not trusted.
 */
export const revisionsMethod = "isthmus/revisions";

export interface RevisionsQuestion {
  readonly uri: string;
}

/** Newest first, or why there are none. */
export type RevisionsAnswer = { readonly revisions: readonly Revision[] } | NotKept;

/**
 * From the client: whether the server holds the text that the client holds. A text that is another one is out of step from then on:
 * no number is shown of it until it is opened again.
 */
export const textHashMethod = "isthmus/textHash";

export interface TextHashQuestion {
  readonly uri: string;
  /** What the client holds at this version, if it wants the two to be compared: the SHA-256 of the text in UTF-8, in hexadecimal. */
  readonly held?: { readonly version: number; readonly sha256: string };
}

/** What the server holds; null when the text is not open. */
export type TextHashAnswer = {
  readonly version: number;
  readonly sha256: string;
  /** False when numbers are withheld. */
  readonly inStep: boolean;
} | null;

/** The scheme of the documents the server makes for reading; their text comes by `workspace/textDocumentContent`. */
export const readOnlyScheme = "isthmus-read-only";

export type MadeDocument =
  | { readonly kind: "printed" | "expanded"; readonly of: string }
  | { readonly kind: "revision"; readonly of: string; readonly revision: string };

/** The URI of a document to be made; its path is what a tab shows. */
export function readOnlyUri(made: MadeDocument): string {
  const name = decodeURIComponent(made.of.slice(made.of.lastIndexOf("/") + 1)).replace(/\.isthmus$/, "");
  const word = made.kind === "revision" ? `at ${made.revision.replaceAll("/", "∕")}` : made.kind;
  return `${readOnlyScheme}:/${encodeURIComponent(`${name} (${word}).isthmus`)}?${encodeURIComponent(JSON.stringify(made))}`;
}

/** What a URI of the scheme asks for; undefined when it is none that `readOnlyUri` makes. */
export function madeDocumentOf(uri: string): MadeDocument | undefined {
  const at = uri.indexOf("?");
  if (!uri.startsWith(`${readOnlyScheme}:`) || at < 0) return undefined;
  try {
    const asked: unknown = JSON.parse(decodeURIComponent(uri.slice(at + 1)));
    return isMadeDocument(asked) ? asked : undefined;
  } catch {
    return undefined;
  }
}

function isMadeDocument(asked: unknown): asked is MadeDocument {
  if (typeof asked !== "object" || asked === null || !("kind" in asked) || !("of" in asked)) return false;
  if (typeof asked.of !== "string") return false;
  if (asked.kind === "revision") return "revision" in asked && typeof asked.revision === "string";
  return asked.kind === "printed" || asked.kind === "expanded";
}
