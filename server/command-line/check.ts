/** `isthmus check`: the findings of plans, catalogues and protocols, as text for a person or JSON for a program. */
import { caution } from "../answers/caution.ts";
import { recordEdition } from "../answers/records.ts";
import { filesBelow } from "../files/disk.ts";
import { type Checked, checker, isGrade, type Settings } from "./checked.ts";
import { type Command, type Invocation, wholeNumber, wrong } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";
import { printable } from "./terminal.ts";
import { mostJobs } from "./threads.ts";

/** From here on the heap is kept small; fewer files do not fill it. */
const many = 50;
/** New objects in a space that stays as it begins, and a collection when the heap is larger by this much than after the last one. */
const smallHeap: readonly string[] = ["--semi-space-growth-factor=1", "--heap-growing-percent=30"];

export const check: Command = {
  name: "check",
  usage: "check PATHS…",
  does: "print what is found in plans, catalogues and protocols",
  options: {
    "fail-on": {
      type: "string",
      value: "GRADE",
      help: "exit 1 from this grade on: error (default), warning, information",
    },
    report: { type: "string", value: "FORMAT", help: "text (default) or json" },
    jobs: { type: "string", value: "N", help: `check N files at a time, at most ${mostJobs}; 1 when not given` },
    "stdin-name": { type: "string", value: "NAME", help: "the name under which `-` (standard input) is read" },
  },
  run: checkPaths,
};

async function checkPaths({ paths, option, terminal, program }: Invocation): Promise<ExitCode> {
  const failOn = option("fail-on") ?? "error";
  const report = option("report") ?? "text";
  const jobs = wholeNumber(option("jobs") ?? "1", 1, mostJobs);
  if (!isGrade(failOn)) return wrong(terminal, `--fail-on takes error, warning or information, not "${failOn}"`);
  if (report !== "text" && report !== "json") return wrong(terminal, `--report takes text or json, not "${report}"`);
  if (jobs === undefined) return wrong(terminal, `--jobs takes a whole number from 1 to ${mostJobs}`);
  if (paths.length === 0) return wrong(terminal, "check needs at least one file or folder");

  const named = paths.filter((path) => path !== "-");
  const { files, missing } = filesBelow(named);
  for (const path of missing) terminal.err(`isthmus: ${printable(path)}: there is no such file or folder\n`);
  const standard = paths.filter((path) => path === "-");
  if (files.length + standard.length === 0 && missing.length === 0) {
    terminal.err("isthmus: no .isthmus file is there\n");
    return exit.broken;
  }
  const settings = { failOn, report, standardName: option("stdin-name"), colours: terminal.colours } as const;
  if (files.length > many) keepHeapSmall();
  const records: Checked["record"][] = [];
  let broken = missing.length > 0;
  let failed = false;
  for await (const each of checkedInOrder(files, standard, settings, jobs, program)) {
    terminal.err(each.err);
    broken ||= each.broken;
    failed ||= each.failed;
    if (report === "json") records.push(each.record);
    else terminal.out(each.out);
  }
  if (report === "json")
    terminal.out(`${JSON.stringify({ edition: recordEdition, caution, files: records }, null, 2)}\n`);
  if (broken) return exit.broken;
  return failed ? exit.found : exit.clear;
}

/** Left to itself the engine lets the heap grow for as long as the machine has room, and is no quicker for it. */
function keepHeapSmall(): void {
  const { setFlagsFromString } = process.getBuiltinModule("node:v8");
  for (const flag of smallHeap) setFlagsFromString(flag);
}

/** Files, then standard input, which only this thread has. */
async function* checkedInOrder(
  files: readonly string[],
  standard: readonly string[],
  settings: Settings,
  jobs: number,
  program: string | undefined,
): AsyncGenerator<Checked> {
  const here = checker(settings);
  if (jobs > 1 && program !== undefined) {
    const { checkedBeside } = await import("./jobs.ts");
    yield* checkedBeside(files, settings, jobs, program);
  } else for (const path of files) yield here(path);
  for (const path of standard) yield here(path);
}
