/**
 * Mutates quantities, reckonings and findings file by file and tells which mutants no test noticed. `node .build/mutants.ts print
 * reckoning` tries this file and this folder alone, `--report` only tells what the last runs found, `--keep` also writes it to
 * tests/mutants/report.md; results are kept in coverage/mutants/ from run to run.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { constants, setPriority } from "node:os";
import { fileURLToPath } from "node:url";
import listedAsEquivalent from "../tests/mutants/equivalent.json" with { type: "json" };
import { digestOf, keepReport, mostListed, type Row } from "./mutant-report.ts";

/** The parts of a report in the schema of mutation testing that are read here. */
interface Report {
  readonly files: Readonly<Record<string, { readonly source: string; readonly mutants: readonly Mutant[] }>>;
}

interface Mutant {
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly status: string;
  readonly testsCompleted?: number;
  readonly location: { readonly start: Position; readonly end: Position };
}

interface Position {
  readonly line: number;
  readonly column: number;
}

/** A mutant that no test noticed, as `equivalent.json` names it. */
interface Survivor {
  readonly file: string;
  readonly mutant: string;
  readonly line: number;
  readonly matter: string;
  readonly untested: boolean;
}

const equivalents: readonly { readonly file: string; readonly mutant: string; readonly reason: string }[] =
  listedAsEquivalent;

/** Where a mistake would do most harm, first; whatever is not named here comes after. */
const first = [
  ...["arithmetic", "print", "probability", "units", "elementary", "influences", "decimal", "chance"].map(inQuantity),
  ...["levels", "length", "reaming", "screws", "compression", "canal", "holes", "fit", "tip", "driving-end"].map(
    inReckoning,
  ),
  ...["as-read", "magnification", "segment", "alignment", "dynamisation", "fragments", "given", "profile"].map(
    inReckoning,
  ),
];
/** Types alone: there is nothing to mutate in them. */
const types = new Set([inQuantity("quantity"), inReckoning("reckoning"), "server/findings/finding.ts"]);

function inQuantity(name: string): string {
  return `server/quantity/${name}.ts`;
}

function inReckoning(name: string): string {
  return `server/reckoning/${name}.ts`;
}

/** Of all mutants, in per cent; those listed as equivalent count as not noticed. */
const leastScore = 85;
const minutesPerFile = 20;
/** Tried together, so that the run without any mutant, a minute, is made once for all of them; what is found is kept after each batch. */
const filesPerBatch = 20;

/** What a surviving mutant touches; the first that fits. A mutant on any of these must be killed or explained. */
const matters: readonly (readonly [matter: string, pattern: RegExp])[] = [
  ["uncertainties", /influence|sensitivity|uncertainty|halfWidth|spread|variance|correlation|±|half-width/i],
  ["sides", /"(proximal|distal|top|tip|near|far|width|depth|medial-lateral|anterior-posterior|oblique|left|right)"/],
  ["units", /"(mm|cm|m|deg|rad|kg|g|mm²|mm³|N|kN|Nm|MPa|GPa|kPa|mmHg|ml|turns|mm\/turn|N·m²|HU|%|1)"/],
  ["limits", /[<>]=?(?!=)\s|compare\(|\b(least|most|limit|minimum|maximum|min|max)\b/],
];

const noticedAs: ReadonlySet<string> = new Set(["Killed", "Timeout", "RuntimeError", "CompileError"]);

const root = fileURLToPath(new URL("..", import.meta.url));
const results = `${root}coverage/mutants/results.json`;
const found = ["server/quantity", "server/reckoning", "server/findings"].flatMap((folder) =>
  readdirSync(`${root}${folder}`)
    .filter((name) => name.endsWith(".ts"))
    .map((name) => `${folder}/${name}`),
);
const files = [...new Set([...first, ...found])].filter((file) => found.includes(file) && !types.has(file));
const asked = process.argv.slice(2).filter((word) => !word.startsWith("--"));
const chosen = files.filter(
  (file) =>
    asked.length === 0 ||
    asked.some((word) => file === word || file.endsWith(`/${word}.ts`) || folderOf(file) === word),
);

setPriority(constants.priority.PRIORITY_LOW);
const unfinished = process.argv.includes("--report")
  ? []
  : batches()
      .filter((batch) => !mutate(batch))
      .flat();
process.exitCode = told(unfinished) ? 0 : 1;

function batches(): string[][] {
  const folders = [...new Set(chosen.map(folderOf))].map((folder) =>
    chosen.filter((file) => folderOf(file) === folder),
  );
  return folders.flatMap((inFolder) =>
    Array.from({ length: Math.ceil(inFolder.length / filesPerBatch) }, (_, at) =>
      inFolder.slice(at * filesPerBatch, (at + 1) * filesPerBatch),
    ),
  );
}

function folderOf(file: string): string {
  return file.split("/")[1] ?? "";
}

/** Whether every mutant of these files could be tried in time. */
function mutate(batch: readonly string[]): boolean {
  console.log(`\n${batch.join(" ")}`);
  const stryker = ["node_modules/@stryker-mutator/core/bin/stryker.js", "run", "--mutate", batch.join(",")];
  const run = spawnSync(process.execPath, stryker, {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, ISTHMUS_MUTATED: folderOf(batch[0] ?? "") },
    timeout: minutesPerFile * batch.length * 60_000,
  });
  return run.status === 0;
}

/** Prints the scores and what survived; whether all of it can stand. */
function told(unfinished: readonly string[]): boolean {
  const report: Report = existsSync(results) ? JSON.parse(readFileSync(results, "utf8")) : { files: {} };
  const known = chosen.filter((file) => report.files[file] !== undefined);
  const survivors = known.flatMap((file) => survivorsOf(report, file));
  const open = survivors.filter((survivor) => !isExplained(survivor));
  const [killed, all] = scores(report, known, open);
  const stale = equivalents.filter(
    (each) =>
      known.includes(each.file) && !survivors.some((one) => one.file === each.file && one.mutant === each.mutant),
  );
  const untested = survivors.filter((survivor) => survivor.untested);
  const grave = open.filter(({ matter }) => matter !== "words and others");
  list("Survived", [...open].sort((a, b) => rank(a) - rank(b)).map(worded));
  list("Survived although no test was run against them: the run does not count", untested.map(worded));
  list(
    "Listed as equivalent, but noticed or gone",
    stale.map((each) => `${each.file}: ${each.mutant}`),
  );
  list(
    "Not tried",
    chosen.filter((file) => !known.includes(file)),
  );
  const ignored = known.filter((file) => report.files[file]?.mutants.some(({ status }) => status === "Ignored"));
  list("Not tried to the end", [...new Set([...unfinished, ...ignored])]);
  const changed = known.filter((file) => report.files[file]?.source !== readFileSync(`${root}${file}`, "utf8"));
  list("Changed since they were tried", changed);
  if (process.argv.includes("--keep"))
    keepReport(
      `${root}tests/mutants/report.md`,
      files,
      known.filter((file) => !ignored.includes(file)).map((file) => rowOf(report, file)),
      root,
    );
  const score = all === 0 ? 0 : (100 * killed) / all;
  console.log(`\n${killed} of ${all} mutants noticed: ${score.toFixed(1)} % (at least ${leastScore} %)`);
  console.log(`${survivors.length - open.length} explained, ${open.length} not, ${grave.length} of them grave`);
  return (
    score >= leastScore && [grave, untested, stale, unfinished, ignored, changed].every(({ length }) => length === 0)
  );
}

function rowOf(report: Report, file: string): Row {
  const { source = "", mutants = [] } = report.files[file] ?? {};
  const survivors = survivorsOf(report, file);
  const noticed = mutants.filter(({ status }) => noticedAs.has(status)).length;
  const open = survivors.filter((survivor) => !isExplained(survivor));
  return {
    file,
    digest: digestOf(source),
    noticed,
    all: noticed + survivors.length,
    explained: survivors.length - open.length,
    left: open.length,
    open: open.slice(0, mostListed).map(({ line, mutant }) => `${line} ${mutant}`),
  };
}

function scores(report: Report, tried: readonly string[], open: readonly Survivor[]): readonly [number, number] {
  let [killed, all] = [0, 0];
  for (const file of tried) {
    const statuses = (report.files[file]?.mutants ?? []).map(({ status }) => status);
    const count = (...wanted: readonly string[]): number => statuses.filter((each) => wanted.includes(each)).length;
    const noticed = count(...noticedAs);
    const valid = noticed + count("Survived", "NoCoverage");
    const left = open.filter((survivor) => survivor.file === file).length;
    const part = valid === 0 ? 100 : (100 * noticed) / valid;
    const late = count("Timeout");
    console.log(
      `${file.padEnd(36)} ${part.toFixed(1).padStart(5)} %  ${noticed} of ${valid} noticed` +
        `${late === 0 ? "" : ` (${late} by running too long)`}, ${valid - noticed - left} explained, ${left} not`,
    );
    killed += noticed;
    all += valid;
  }
  return [killed, all];
}

function survivorsOf(report: Report, file: string): readonly Survivor[] {
  const { source, mutants } = report.files[file] ?? { source: "", mutants: [] };
  const lines = source.split("\n");
  return mutants
    .filter(({ status }) => status === "Survived" || status === "NoCoverage")
    .map(({ location, mutatorName, replacement, status, testsCompleted }) => {
      const original = textAt(lines, location.start, location.end);
      const context = lines.slice(location.start.line - 1, location.end.line).join("\n");
      return {
        file,
        mutant: `${mutatorName}: ${oneLine(original)} → ${oneLine(replacement ?? "")} in ${oneLine(lines[location.start.line - 1] ?? "")}`,
        line: location.start.line,
        matter: matters.find(([, pattern]) => pattern.test(context))?.[0] ?? "words and others",
        untested: status === "Survived" && (testsCompleted ?? 0) === 0,
      };
    });
}

function textAt(lines: readonly string[], start: Position, end: Position): string {
  const within = lines.slice(start.line - 1, end.line);
  const last = (within.at(-1) ?? "").slice(0, end.column - 1);
  const cut = [...within.slice(0, -1), last];
  return [(cut[0] ?? "").slice(start.column - 1), ...cut.slice(1)].join("\n");
}

function oneLine(text: string): string {
  const line = text.trim().replace(/\s+/g, " ");
  return line.length > 120 ? `${line.slice(0, 119)}…` : line;
}

function isExplained({ file, mutant }: Survivor): boolean {
  return equivalents.some((each) => each.file === file && each.mutant === mutant && each.reason !== "");
}

function rank({ matter }: Survivor): number {
  const place = matters.findIndex(([name]) => name === matter);
  return place < 0 ? matters.length : place;
}

function worded({ file, line, mutant, matter }: Survivor): string {
  return `${matter}: ${file}:${line} ${mutant}`;
}

function list(title: string, lines: readonly string[]): void {
  if (lines.length > 0) console.log(`\n${title} (${lines.length})\n${lines.map((line) => `  ${line}`).join("\n")}`);
}
