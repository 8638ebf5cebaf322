/** Rows of the bundled command line: one plan from a cold start, and many files with the memory they take at most. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { contentOf } from "./as-data.ts";
import { samplesFolder, writeManyPlans } from "./grown-plan.ts";
import { ajvOver, jsYaml } from "./peers.ts";
import { digits, limitRow, type Row, withinRow } from "./row.ts";
import { quantile } from "./timing.ts";

const isthmus = fileURLToPath(new URL("../../dist/isthmus.js", import.meta.url));
const tellPeak = new URL("tell-peak.ts", import.meta.url).href;

/** `many` is the number of files checked in one go; a tenth of them shows whether the memory grows with it. */
export function commandLineRows(many: number): Row[] {
  return [...manyRows(many, Math.ceil(many / 10)), coldRow()];
}

function manyRows(many: number, few: number): Row[] {
  const folder = mkdtempSync(join(tmpdir(), "isthmus-bench-"));
  try {
    writeManyPlans(folder, few, 200);
    const small = checkAll(folder, few);
    const files = writeManyPlans(folder, many, 200);
    const large = checkAll(folder, many);
    const beside = checkAll(folder, many, 2);
    const peer = secondsOfYaml(files.map(({ text }) => text));
    const speed = (seconds: number): string => `${digits(many / seconds)} files/s`;
    const grown = (large.peak / small.peak).toFixed(2);
    return [
      {
        what: `\`check\` over ${many} files of 200 lines, one process`,
        ours: speed(large.seconds),
        peer: `js-yaml + ajv: ${speed(peer)}`,
        ratio: `${digits(peer / large.seconds)} × as fast`,
        reach: "at least 1 ×",
        outcome: peer >= large.seconds ? "reached" : "missed",
      },
      limitRow(
        `\`check\` over ${many} files, memory at most`,
        large.peak,
        "MB",
        200,
        `${few} files: ${digits(small.peak)} MB`,
      ),
      {
        what: `\`check\`: memory from ${few} to ${many} files`,
        ours: `${digits(large.peak)} MB`,
        peer: `${few} files: ${digits(small.peak)} MB`,
        ratio: `${grown} ×`,
        reach: "flat: at most 1.25 ×",
        outcome: large.peak <= 1.25 * small.peak ? "reached" : "missed",
      },
      {
        what: `\`check --jobs 2\` over ${many} files`,
        ours: speed(beside.seconds),
        peer: `one process: ${speed(large.seconds)}`,
        ratio: `${digits(large.seconds / beside.seconds)} × as fast`,
        reach: "at least 1.6 ×",
        outcome: large.seconds >= 1.6 * beside.seconds ? "reached" : "missed",
      },
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Seconds of the whole process, and MB it held at most. */
function checkAll(folder: string, count: number, jobs = 1): { readonly seconds: number; readonly peak: number } {
  const start = performance.now();
  const words = ["--import", tellPeak, isthmus, "check", "--jobs", `${jobs}`, join(folder, "plans")];
  const run = spawnSync(process.execPath, words, { encoding: "utf8", maxBuffer: 1024 ** 3 });
  const seconds = (performance.now() - start) / 1000;
  const [, kilobytes] = /peak: (\d+) kB/.exec(run.stderr) ?? [];
  const told = run.stdout.split(".isthmus: nothing found").length - 1;
  if (told !== count || kilobytes === undefined) {
    throw new Error(
      `check ended with ${run.status ?? run.signal}, ${told} of ${count} files clean: ${run.stderr.slice(-400)}`,
    );
  }
  return { seconds, peak: Number(kilobytes) / 1024 };
}

/** The same content, parsed and validated in this process; making it and compiling the schema are not counted. */
function secondsOfYaml(plans: readonly string[]): number {
  // Plans of one length differ in one number: the first one's schema allows up to twice that number.
  const first = plans[0] ?? "";
  const valid = ajvOver(contentOf(first));
  const read = jsYaml();
  const texts = plans.map((plan) => contentOf(plan).yaml);
  const start = performance.now();
  for (const text of texts)
    if (!valid(read(text))) throw new Error("the content of many files does not fit its schema");
  return (performance.now() - start) / 1000;
}

/** A whole process that checks one plan, against one that does nothing; they take turns. */
function coldRow(): Row {
  const plan = join(samplesFolder, "plans", "simple-shaft.isthmus");
  const ours: number[] = [];
  const empty: number[] = [];
  for (let round = 0; round < 15; round++) {
    ours.push(millisecondsOf([isthmus, "check", plan]));
    empty.push(millisecondsOf(["--eval", ""]));
  }
  const [mine, none] = [quantile(ours, 0.5), quantile(empty, 0.5)];
  const lines = readFileSync(plan, "utf8").split("\n").length - 1;
  return withinRow(`\`check\` of one plan of ${lines} lines, cold`, "an empty Node process", mine, none, 3);
}

function millisecondsOf(words: readonly string[]): number {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, words, { encoding: "utf8" });
  if (status !== 0) throw new Error(`${words.join(" ")} ended with ${status}: ${stderr}`);
  return performance.now() - start;
}
