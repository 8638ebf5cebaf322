/**
 * How other files of a plan are reached: an interface that whoever reads the disk, an editor's open texts or a test fulfils. It
 * decides itself what lies outside; nothing here opens anything.
 */
import { type Parsed, parse } from "../../grammar/parse.ts";

export interface Library {
  /** Opens `path` as written in the file `from`, relative to that file. Never throws. */
  open(from: string, path: string): Opened;
  /** The same for a file that is no text of the language: a bibliography. */
  openText(from: string, path: string): OpenedText;
}

/** `file` is the key under which the source is known; the same file always has the same key. */
export type Opened = { readonly kind: "read"; readonly file: string; readonly parsed: Parsed } | NotOpened;

export type OpenedText = { readonly kind: "read"; readonly file: string; readonly text: string } | NotOpened;

export interface NotOpened {
  readonly kind: "missing" | "outside" | "not-a-file";
  readonly because: string;
}

/** A library over texts in memory: every document is its text, parsed when it is opened. */
export function libraryOfTexts(openText: Library["openText"]): Library {
  return {
    openText,
    open: (from, path) => {
      const opened = openText(from, path);
      return opened.kind === "read" ? { kind: "read", file: opened.file, parsed: parse(opened.text) } : opened;
    },
  };
}
