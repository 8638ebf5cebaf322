/** The road from a text to its numbers: tree, meaning and reckonings; what is judged of them comes after. It reads no disk. */
import { type Parsed, parse } from "../../grammar/parse.ts";
import type { Library } from "../meaning/library.ts";
import { type Meaning, understand } from "../meaning/understand.ts";
import { reckon } from "../reckoning/reckon.ts";
import type { Reckonings } from "../reckoning/reckoning.ts";

export interface Understood {
  readonly file: string;
  readonly text: string;
  readonly parsed: Parsed;
  readonly meaning: Meaning;
  /** Undefined for a catalogue, a protocol, or a text that is none of the three. */
  readonly reckonings: Reckonings | undefined;
  /** The texts this was made from, its own and each import's, by file. */
  readonly texts: ReadonlyMap<string, string>;
}

/** Imports come through the library that is handed in. */
export function understood(file: string, text: string, library: Library): Understood {
  const parsed = parse(text);
  const texts = new Map([[file, text]]);
  const watched: Library = {
    open: (from, path) => {
      const opened = library.open(from, path);
      if (opened.kind === "read") texts.set(opened.file, opened.parsed.text);
      return opened;
    },
    openText: (from, path) => {
      const opened = library.openText(from, path);
      if (opened.kind === "read") texts.set(opened.file, opened.text);
      return opened;
    },
  };
  const meaning = understand(parsed, file, watched);
  const reckonings = meaning.document?.kind === "plan" ? reckon(meaning.document) : undefined;
  return { file, text, parsed, meaning, reckonings, texts };
}
