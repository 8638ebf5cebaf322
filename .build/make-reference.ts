/**
 * Writes the reference pages: what stands above the mark in each is written by hand and kept, what stands below it is made from
 * the tool's own tables. Run by `npm run reference`; a test holds the pages to it.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { findingsPage, reckoningsPage, vocabularyPage } from "../server/answers/reference.ts";

export const mark = "<!-- Below this line the page is made by `npm run reference`. -->\n\n";

export const pages: readonly (readonly [file: string, made: () => string])[] = [
  ["grammar/LANGUAGE.md", vocabularyPage],
  ["server/findings/FINDINGS.md", findingsPage],
  ["server/reckoning/RECKONINGS.md", reckoningsPage],
];

/** The page as it should be, from what stands in it now. */
export function pageText(now: string, made: () => string): string {
  const [byHand = ""] = now.split(mark);
  return `${byHand}${mark}${made()}`;
}

export function pagePath(file: string): string {
  return fileURLToPath(new URL(`../${file}`, import.meta.url));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [file, made] of pages) writeFileSync(pagePath(file), pageText(readFileSync(pagePath(file), "utf8"), made));
}
