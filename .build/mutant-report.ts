/**
 * The report on mutants as a page that is kept: a row a file with the digest of the source that was tried, so that a run may be spread
 * over days and machines and it shows which rows still hold. What no test noticed stands below.
 */
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";

/** What one file's mutants came to. */
export interface Row {
  readonly file: string;
  /** Of the source as it was tried. */
  readonly digest: string;
  readonly noticed: number;
  readonly all: number;
  readonly explained: number;
  /** How many no test noticed and nothing explains. */
  readonly left: number;
  /** The first of them in words. */
  readonly open: readonly string[];
}

/** So many of what is left of one file stand on the page: a reader begins with the first, and runs the file again. */
export const mostListed = 12;

export function digestOf(source: string): string {
  return createHash("sha256").update(source).digest("hex").slice(0, 12);
}

/** Writes the page anew: these rows, and of the page as it was the rows of other files. */
export function keepReport(page: string, files: readonly string[], rows: readonly Row[], root: string): void {
  const known = new Map([...rowsOf(page), ...rows.map((row) => [row.file, row] as const)]);
  const kept = files.flatMap((file) => known.get(file) ?? []);
  const current = kept.filter(({ file, digest }) => digest === digestOf(readFileSync(`${root}${file}`, "utf8")));
  const folders = [...new Set(files.map(folderOf))];
  const lines = [
    "# Mutants",
    "",
    "Small changes to the source, each of which the tests should notice (`npm run test:mutants`; this page is written by",
    "`npm run test:mutants -- --report --keep`). Those explained in `equivalent.json` change nothing that can be seen; they count as",
    "not noticed all the same. The digest is of the source that was tried. A run with `ISTHMUS_PATIENCE` counts as not noticed what",
    "its tests had no time for.",
    "",
    ...folders.map((folder) => shareOf(folder, files, current)),
    "",
    "| file | digest | noticed | of | explained | left |",
    "| --- | --- | --- | --- | --- | --- |",
    ...kept.map(
      ({ file, digest, noticed, all, explained, left }) =>
        `| ${file} | ${digest}${current.some((row) => row.file === file) ? "" : " (changed since)"} | ${noticed} | ${all} | ${explained} | ${left} |`,
    ),
    "",
    ...untried(files.filter((file) => !known.has(file))),
    "## Left",
    "",
    `Of each file the first ${mostListed}.`,
    "",
    ...kept.flatMap(({ file, open }) => open.map((mutant) => `- ${file}: \`${mutant.replaceAll("`", "ˋ")}\``)),
    "",
  ];
  writeFileSync(page, lines.join("\n"));
}

function folderOf(file: string): string {
  return file.slice(0, file.lastIndexOf("/"));
}

function shareOf(folder: string, files: readonly string[], current: readonly Row[]): string {
  const rows = current.filter(({ file }) => folderOf(file) === folder);
  const sum = (of: (row: Row) => number): number => rows.reduce((total, row) => total + of(row), 0);
  const [noticed, all] = [sum((row) => row.noticed), sum((row) => row.all)];
  const share = all === 0 ? "–" : `${((100 * noticed) / all).toFixed(1)} %`;
  const count = files.filter((file) => folderOf(file) === folder).length;
  return `- \`${folder}\`: ${rows.length} of ${count} files tried as they are now, ${noticed} of ${all} mutants noticed (${share}).`;
}

/** By folder, in one paragraph each. */
function untried(files: readonly string[]): readonly string[] {
  const folders = [...new Set(files.map(folderOf))];
  return folders.flatMap((folder) => {
    const names = files
      .filter((file) => file.startsWith(`${folder}/`))
      .map((file) => file.slice(folder.length + 1, -3));
    return [`Not tried yet of \`${folder}\` (${names.length}): ${names.join(", ")}.`, ""];
  });
}

function rowsOf(page: string): readonly (readonly [string, Row])[] {
  if (!existsSync(page)) return [];
  const text = readFileSync(page, "utf8");
  const open = [...text.matchAll(/^- (\S+): `(.*)`$/gm)].map(([, file = "", mutant = ""]) => ({ file, mutant }));
  const found = text.matchAll(/^\| (\S+) \| ([0-9a-f]{12})[^|]*\| (\d+) \| (\d+) \| (\d+) \| (\d+) \|$/gm);
  return [...found].map(([, file = "", digest = "", noticed, all, explained, left]) => [
    file,
    {
      file,
      digest,
      noticed: Number(noticed),
      all: Number(all),
      explained: Number(explained),
      left: Number(left),
      open: open.filter((each) => each.file === file).map(({ mutant }) => mutant),
    },
  ]);
}
