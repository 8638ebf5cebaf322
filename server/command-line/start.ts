/** Where the bundled command line starts: hands the process's words to `run` and leaves with its exit code. */
import { exit } from "./exit.ts";
import { run } from "./main.ts";
import { processTerminal } from "./terminal.ts";

// A reader that closed the pipe early has seen all it wants.
process.stdout.on("error", () => process.exit(exit.clear));

void run(process.argv.slice(2), processTerminal).then((code) => {
  // The code is set, not forced: output still in a pipe is not cut off.
  process.exitCode = code;
});
