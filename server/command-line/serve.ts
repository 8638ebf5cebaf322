/** `isthmus serve`: the language server over standard input and output, for any editor that speaks the protocol. */
import type { Command, Invocation } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";

export const serve: Command = {
  name: "serve",
  usage: "serve --stdio",
  does: "run the language server for an editor",
  options: { stdio: { type: "boolean", help: "speak over standard input and output" } },
  run: startServer,
};

async function startServer({ flag, terminal }: Invocation): Promise<ExitCode> {
  if (!flag("stdio")) {
    terminal.err("isthmus: serve speaks over standard input and output: isthmus serve --stdio\n");
    return exit.wrongUse;
  }
  // Loaded here alone, from its own bundle: the other commands start faster without it. To load it is to start it.
  await import("../language-server/main.ts");
  // The process ends when the client says so or its end of the pipe closes.
  return new Promise(() => undefined);
}
