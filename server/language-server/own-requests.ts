/** Requests between this server and its client that the protocol does not have, with their shapes; the client imports them too. */

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
