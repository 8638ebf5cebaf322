/** Places of a text that lead to a file: paths of imports and bibliographies, and citations in notes and texts. No file is looked for. */
import type { Span } from "../../grammar/tree.ts";
import { entriesOf } from "../meaning/bibliography.ts";
import { citationsIn } from "../meaning/citations.ts";
import type { Analysis } from "./analyse.ts";
import { pathsIn } from "./facts.ts";

export interface Link {
  readonly span: Span;
  /** As written in this text. */
  readonly path: string;
  /** The file that was read for it, where one was. */
  readonly file: string | undefined;
  /** For a citation the key, to be looked for in that bibliography. */
  readonly key: string | undefined;
}

/** In the order of the text. A citation leads to each bibliography the plan names. */
export function linksIn(analysis: Analysis): readonly Link[] {
  const paths = pathsIn(analysis.meaning.document);
  const files = paths.map(({ path, place, leads }): Link => {
    return { span: insideQuotes(analysis.text, place.span), path, file: leads?.file, key: undefined };
  });
  const bibliographies = paths.filter(({ line }) => line === "sources");
  const citations = bibliographies.flatMap(({ path }) =>
    citationsIn(analysis.text).map(({ key, span }): Link => ({ span, path, file: undefined, key })),
  );
  return [...files, ...citations].sort((a, b) => a.span.start - b.span.start);
}

/** Offset of a key's entry in a bibliography: `@article{key,`. */
export function entryIn(bibliography: string, key: string): number | undefined {
  return entriesOf(bibliography).find((entry) => entry.key === key)?.start;
}

function insideQuotes(text: string, { start, end }: Span): Span {
  return text[start] === '"' && text[end - 1] === '"' && end - start > 2
    ? { start: start + 1, end: end - 1 }
    : { start, end };
}
