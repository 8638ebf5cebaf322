/** Where the bundled command line starts: hands the process's words to `run` and leaves with its exit code. */
import { isMainThread } from "node:worker_threads";
import { exit } from "./exit.ts";
import { answerBatches } from "./jobs.ts";
import { run } from "./main.ts";
import { processTerminal } from "./terminal.ts";

if (isMainThread) start();
else answerBatches();

function start(): void {
  // A reader that closed the pipe early has seen all it wants.
  process.stdout.on("error", () => process.exit(exit.clear));

  const [, program, ...words] = process.argv;
  void run(words, processTerminal, program).then((code) => {
    // The code is set, not forced: output still in a pipe is not cut off.
    process.exitCode = code;
  });
}
