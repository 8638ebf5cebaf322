/**
 * The same text once more with some edits in it, analysed with the imports the first analysis read, so that an answer can try what it
 * proposes before it says so. No file is read anew.
 */
import type { Edit } from "../../grammar/problems.ts";
import { type Analysis, analyse, libraryOver } from "./analyse.ts";
import { pathsIn } from "./facts.ts";
import { differences } from "./what-if.ts";

/** The text with the edits in it; they must not overlap. */
export function edited(text: string, edits: readonly Edit[]): string {
  const ordered = [...edits].sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  let at = 0;
  let result = "";
  for (const { span, text: put } of ordered) {
    result += text.slice(at, span.start) + put;
    at = span.end;
  }
  return result + text.slice(at);
}

export function analysedWith(analysis: Analysis, edits: readonly Edit[]): Analysis {
  const files = new Map(
    pathsIn(analysis.meaning.document).flatMap(({ path, leads }): [string, string][] =>
      leads === undefined ? [] : [[path, leads.file]],
    ),
  );
  const library = libraryOver((_from, path) => {
    const file = files.get(path);
    const text = file === undefined ? undefined : analysis.texts.get(file);
    return file === undefined || text === undefined
      ? { kind: "missing", because: "it was not read before" }
      : { kind: "read", file, text };
  });
  return analyse(analysis.file, edited(analysis.text, edits), library);
}

/** True when the edits leave every reckoning as it is printed and every finding where it was. */
export function keepsMeaning(analysis: Analysis, edits: readonly Edit[]): boolean {
  const { changed, come, gone } = differences(analysis, analysedWith(analysis, edits));
  return changed.length === 0 && come.length === 0 && gone.length === 0;
}
