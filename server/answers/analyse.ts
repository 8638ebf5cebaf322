/**
 * The whole road in one call: text to tree, meaning, reckonings and findings, as one immutable analysis that every face reads.
 * It reads no disk: imports come through the library that is handed in.
 */
import { type Parsed, parse } from "../../grammar/parse.ts";
import type { Judgement } from "../findings/finding.ts";
import { judge } from "../findings/judge.ts";
import type { Library, NotOpened, Opened, OpenedText } from "../meaning/library.ts";
import { type Understood, understood } from "./understood.ts";

export interface Analysis extends Understood {
  readonly judgement: Judgement;
}

/** What a library needs from the outside: the text an import names, or why it cannot be had. */
export type ReadImport = (from: string, path: string) => ImportedText;

export type ImportedText =
  | { readonly kind: "read"; readonly file: string; readonly text: string }
  | { readonly kind: "missing" | "outside" | "not-a-file" | "not-text"; readonly because: string };

export function analyse(file: string, text: string, library: Library): Analysis {
  const of = understood(file, text, library);
  return Object.freeze({ ...of, judgement: judge(of) });
}

/** A library over any reader; a text that has not changed is parsed once for as long as the library lives. */
export function libraryOver(read: ReadImport): Library {
  const known = new Map<string, { text: string; parsed: Parsed }>();
  return {
    open: (from, path): Opened => {
      const found = read(from, path);
      if (found.kind !== "read") return notOpened(found);
      let entry = known.get(found.file);
      if (entry === undefined || entry.text !== found.text) {
        entry = { text: found.text, parsed: parse(found.text) };
        known.set(found.file, entry);
      }
      return { kind: "read", file: found.file, parsed: entry.parsed };
    },
    openText: (from, path): OpenedText => {
      const found = read(from, path);
      return found.kind === "read" ? found : notOpened(found);
    },
  };
}

function notOpened({ kind, because }: Exclude<ImportedText, { readonly kind: "read" }>): NotOpened {
  return { kind: kind === "not-text" ? "not-a-file" : kind, because };
}
