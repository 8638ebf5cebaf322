/** The command line's entry: finds the command, reads its options strictly, and turns every outcome into an exit code. */
import { parseArgs } from "node:util";
import { caution } from "../answers/caution.ts";
import { version } from "../answers/version.ts";
import { check } from "./check.ts";
import type { Command, Invocation } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";
import { explain } from "./explain.ts";
import { propose } from "./propose.ts";
import { reckonCommand } from "./reckon.ts";
import { serve } from "./serve.ts";
import { printable, type Terminal } from "./terminal.ts";
import { tidy } from "./tidy.ts";

const commands: readonly Command[] = [check, reckonCommand, propose, tidy, explain, serve];

/** `program` is the file the process was started from, from which threads of it can be. */
export async function run(words: readonly string[], terminal: Terminal, program?: string): Promise<ExitCode> {
  const [first, ...rest] = words;
  if (first === undefined || first === "--help" || first === "-h" || first === "help") {
    (first === undefined ? terminal.err : terminal.out)(overview());
    return first === undefined ? exit.wrongUse : exit.clear;
  }
  if (first === "--version") {
    terminal.out(`isthmus ${version}\n`);
    return exit.clear;
  }
  const command = commands.find((each) => each.name === first);
  if (command === undefined) {
    terminal.err(`isthmus: there is no command "${printable(first)}". ${commandList()}\n`);
    return exit.wrongUse;
  }
  if (rest.includes("--help") || rest.includes("-h")) {
    terminal.out(helpOf(command));
    return exit.clear;
  }
  const invocation = readOptions(command, rest, terminal, program);
  if (typeof invocation === "string") {
    terminal.err(`isthmus: ${printable(invocation)}\n`);
    return exit.wrongUse;
  }
  try {
    return await command.run(invocation);
  } catch (fault) {
    terminal.err(`isthmus: a fault of the tool, nothing was written: ${printable(String(fault))}\n`);
    return exit.broken;
  }
}

function readOptions(
  command: Command,
  words: readonly string[],
  terminal: Terminal,
  program: string | undefined,
): Invocation | string {
  const options = Object.fromEntries(Object.entries(command.options).map(([name, { type }]) => [name, { type }]));
  try {
    const read = parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
    const values = new Map<string, unknown>(Object.entries(read.values));
    return {
      paths: read.positionals,
      option: (name) => {
        const value = values.get(name);
        return typeof value === "string" ? value : undefined;
      },
      flag: (name) => values.get(name) === true,
      terminal,
      program,
    };
  } catch (fault) {
    return fault instanceof Error ? fault.message : String(fault);
  }
}

function overview(): string {
  const rows = commands.map(({ usage, does }) => `  isthmus ${usage.padEnd(16)}  ${does}\n`).join("");
  return `isthmus ${version}: operative plans for locked intramedullary nailing, computed and checked\n\n${rows}\n  isthmus COMMAND --help  its options\n\nExit codes: 0 nothing found, 1 found, 2 wrong use, 3 could not run to the end.\n\n${caution}\n`;
}

function helpOf(command: Command): string {
  const rows = Object.entries(command.options).map(([name, rule]) => {
    const label = rule.value === undefined ? `--${name}` : `--${name} ${rule.value}`;
    return `  ${label.padEnd(20)}  ${rule.help}\n`;
  });
  return `isthmus ${command.usage}: ${command.does}\n\n${rows.join("")}\n${caution}\n`;
}

function commandList(): string {
  return `The commands are ${commands.map(({ name }) => name).join(", ")}.`;
}
