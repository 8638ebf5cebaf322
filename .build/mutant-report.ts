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
  /** What no test noticed and nothing explains, in words. */
  readonly open: readonly string[];
}

export function digestOf(source: string): string {
  return createHash("sha256").update(source).digest("hex").slice(0, 12);
}

/** Writes the page anew: these rows, and of the page as it was the rows of other files. */
export function keepReport(page: string, files: readonly string[], rows: readonly Row[], root: string): void {
  const known = new Map([...rowsOf(page), ...rows.map((row) => [row.file, row] as const)]);
  const kept = files.flatMap((file) => known.get(file) ?? []);
  const current = kept.filter(({ file, digest }) => digest === digestOf(readFileSync(`${root}${file}`, "utf8")));
  const sum = (of: (row: Row) => number): number => current.reduce((total, row) => total + of(row), 0);
  const share = sum(({ all }) => all) === 0 ? 0 : (100 * sum(({ noticed }) => noticed)) / sum(({ all }) => all);
  const lines = [
    "# Mutants",
    "",
    "Small changes to the source, each of which the tests should notice (`npm run test:mutants`; this page is written by",
    "`npm run test:mutants -- --report --keep`). Those explained in `equivalent.json` change nothing that can be seen; they count as",
    "not noticed all the same. The digest is of the source that was tried.",
    "",
    `Tried as they are now: ${current.length} of ${files.length} files; ${sum(({ noticed }) => noticed)} of ${sum(({ all }) => all)} mutants noticed (${share.toFixed(1)} %).`,
    "",
    "| file | digest | noticed | of | explained | left |",
    "| --- | --- | --- | --- | --- | --- |",
    ...kept.map(
      ({ file, digest, noticed, all, explained, open }) =>
        `| ${file} | ${digest}${current.some((row) => row.file === file) ? "" : " (changed since)"} | ${noticed} | ${all} | ${explained} | ${open.length} |`,
    ),
    "",
    ...untried(files.filter((file) => !known.has(file))),
    "## Left",
    "",
    ...kept.flatMap(({ file, open }) => open.map((mutant) => `- ${file}: \`${mutant.replaceAll("`", "ˋ")}\``)),
    "",
  ];
  writeFileSync(page, lines.join("\n"));
}

/** By folder, in one paragraph each. */
function untried(files: readonly string[]): readonly string[] {
  const folders = [...new Set(files.map((file) => file.slice(0, file.lastIndexOf("/"))))];
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
  const found = text.matchAll(/^\| (\S+) \| ([0-9a-f]{12})[^|]*\| (\d+) \| (\d+) \| (\d+) \| \d+ \|$/gm);
  return [...found].map(([, file = "", digest = "", noticed, all, explained]) => [
    file,
    {
      file,
      digest,
      noticed: Number(noticed),
      all: Number(all),
      explained: Number(explained),
      open: open.filter((each) => each.file === file).map(({ mutant }) => mutant),
    },
  ]);
}
