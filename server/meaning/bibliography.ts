/**
 * The keys of a BibTeX bibliography, each with its place. What an entry says is not read; a text that is no bibliography has no keys.
 * Total on any text, in time that grows with its length.
 */
import type { Span } from "../../grammar/tree.ts";
import type { Said } from "./plan.ts";

export interface BibliographyEntry {
  readonly key: string;
  /** The `@` that opens the entry, for going there. */
  readonly start: number;
  readonly keySpan: Span;
}

/** A bibliography that a plan names. */
export interface Bibliography {
  readonly path: Said;
  /** Undefined when the file could not be read. */
  readonly read: { readonly file: string; readonly entries: readonly BibliographyEntry[] } | undefined;
}

/** These hold no entry. */
const commands: ReadonlySet<string> = new Set(["comment", "preamble", "string"]);

/** In the order of the text; a key given twice stands twice. */
export function entriesOf(text: string): readonly BibliographyEntry[] {
  const entries: BibliographyEntry[] = [];
  let inside = 0;
  for (const found of text.matchAll(/@([A-Za-z]+)\s*([{(])[^\S\r\n]*/g)) {
    const [opening, kind = "", bracket = "{"] = found;
    // What looks like an entry inside another is a part of it, but one that opens a line ends an entry that was never closed.
    if (found.index < inside && !opensLine(text, found.index)) continue;
    const at = found.index + opening.length;
    inside = endOfEntry(text, at, bracket);
    const key = /^[^\s,{}()"#%=]+/.exec(text.slice(at, at + longestKey))?.[0];
    if (key === undefined || commands.has(kind.toLowerCase())) continue;
    entries.push({ key, start: found.index, keySpan: { start: at, end: at + key.length } });
  }
  return entries;
}

const longestKey = 200;

function opensLine(text: string, at: number): boolean {
  let before = at;
  while (before > 0 && (text[before - 1] === " " || text[before - 1] === "\t")) before -= 1;
  return before === 0 || text[before - 1] === "\n" || text[before - 1] === "\r";
}

/** Behind the bracket that closes the entry, or where the next one opens a line. */
function endOfEntry(text: string, start: number, bracket: string): number {
  let depth = 0;
  for (let at = start; at < text.length; at += 1) {
    const sign = text[at];
    if (sign === "\\") at += 1;
    else if (sign === "{") depth += 1;
    else if (sign === "}" && depth > 0) depth -= 1;
    else if (depth === 0 && (sign === "}" || (sign === ")" && bracket === "("))) return at + 1;
    else if (sign === "@" && opensLine(text, at) && /^@[A-Za-z]+\s*[{(]/.test(text.slice(at, at + 40))) return at;
  }
  return text.length;
}
