/**
 * `npm run bench`: measures every row, prints the table, and with `--keep` writes it to RESULTS.md. A row that misses is printed as
 * missed; the exit code is 1 only where something could not be measured. `--files 500` checks that many files instead of 10,000.
 */
import { writeFileSync } from "node:fs";
import { cpus, loadavg, totalmem } from "node:os";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { analysisRows } from "./analysis-rows.ts";
import { commandLineRows } from "./command-line-rows.ts";
import { digits, markdownTable, otherRow, type Row } from "./row.ts";
import { serverRows } from "./server-rows.ts";

const { values } = parseArgs({
  options: { keep: { type: "boolean", default: false }, files: { type: "string", default: "10000" } },
});

const parts: readonly { readonly name: string; readonly measure: () => Row[] | Promise<Row[]> }[] = [
  { name: "analysis beside the peers", measure: analysisRows },
  { name: "the language server over stdio", measure: serverRows },
  { name: "the command line", measure: () => commandLineRows(Number(values.files)) },
];

const rows: Row[] = [];
for (const { name, measure } of parts) {
  console.log(`Measuring ${name} …`);
  try {
    rows.push(...(await measure()));
  } catch (fault) {
    console.error(fault);
    rows.push(otherRow(name, String(fault).replaceAll("\n", " "), "–", "not measured"));
  }
}
rows.push(
  otherRow(
    "statements that keep their meaning while a word is half typed",
    "`tests/grammar/half-typed.test.ts`",
    "99 % on average, 90 % at worst",
    "a test of its own",
  ),
);

const count = (outcome: Row["outcome"]): number => rows.filter((row) => row.outcome === outcome).length;
const table = markdownTable(rows);
// More programs than cores spoil the tails (p99) first; a reader judges them by this figure and by the server that parses nothing.
const load = digits(loadavg()[1] ?? 0);
const machine = `${cpus().length} cores, ${Math.round(totalmem() / 1024 ** 3)} GB, Node ${process.versions.node}, ${process.platform} ${process.arch}, ${load} programs running on average`;
const summary = `${count("reached")} reached, ${count("missed")} missed, ${count("not built")} not built, ${count("not measured")} not measured.`;
console.log(`\n${table}\n${machine}\n${summary}`);

if (values.keep) {
  const page = `# Speed, as last measured

Written by \`npm run bench -- --keep\`. Other programs on the machine slow every contender alike, so only the ratios carry over. The
texts are generated and invented; the peers check types, enumerations and ranges alone, an analysis reckons and judges besides.

${table}
${machine}. ${summary}
`;
  writeFileSync(fileURLToPath(new URL("RESULTS.md", import.meta.url)), page);
}
if (count("not measured") > 0) process.exitCode = 1;
