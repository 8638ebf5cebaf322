/** Where the bundled command line starts: hands the process's words to `run` and leaves with its exit code. */
import { exit } from "./exit.ts";
import { run } from "./main.ts";
import { processTerminal } from "./terminal.ts";
import { threadWord } from "./threads.ts";

const [, program, ...words] = process.argv;
if (words[0] === threadWord) void asThread();
else start();

function start(): void {
  // A reader that closed the pipe early has seen all it wants.
  process.stdout.on("error", () => process.exit(exit.clear));
  void run(words, processTerminal, program).then((code) => {
    // The code is set, not forced: output still in a pipe is not cut off.
    process.exitCode = code;
  });
}

async function asThread(): Promise<void> {
  const { answerBatches } = await import("./jobs.ts");
  // Typed by a person the word is one that `run` does not know.
  if (!answerBatches()) start();
}
