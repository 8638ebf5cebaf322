/** Citations of a text: `[@key]` in its notes and its texts in quotes. Whether a bibliography has the key is not known here. */
import { lex } from "../../grammar/tokens.ts";
import type { Span } from "../../grammar/tree.ts";

export interface Citation {
  readonly key: string;
  /** The key with its `@`. */
  readonly span: Span;
}

/** `[@key]` and each of `[@one; @two]`, in the order of the text. */
export function citationsIn(text: string): readonly Citation[] {
  // Asked at every keystroke, and most plans cite nothing.
  if (!text.includes("[@")) return [];
  return lex(text)
    .filter(({ kind }) => kind === "note" || kind === "text")
    .flatMap(({ span, text: said }) =>
      [...said.matchAll(/\[@[^[\]\r\n]*\]/g)].flatMap((group) =>
        [...group[0].matchAll(/@([A-Za-z0-9_][\w:.#$%&+?<>~/-]*)/g)].map((found) => {
          const start = span.start + group.index + found.index;
          return { key: found[1] ?? "", span: { start, end: start + found[0].length } };
        }),
      ),
    );
}
