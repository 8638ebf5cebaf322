/** What a command is: its words for the help, its options and how they are read, and the function that runs it. */
import { type ExitCode, exit } from "./exit.ts";
import { printable, type Terminal } from "./terminal.ts";

export interface OptionRule {
  readonly type: "string" | "boolean";
  /** How the help names the option's value. */
  readonly value?: string;
  readonly help: string;
}

export interface Invocation {
  readonly paths: readonly string[];
  /** The value of a string option; undefined when it was not given. */
  option(name: string): string | undefined;
  /** Whether a boolean option was given. */
  flag(name: string): boolean;
  readonly terminal: Terminal;
  /** The file a thread of this program starts from; undefined where the commands are called without the program. */
  readonly program: string | undefined;
}

export interface Command {
  readonly name: string;
  readonly usage: string;
  /** One line for the overview, lower case, no full stop. */
  readonly does: string;
  readonly options: Readonly<Record<string, OptionRule>>;
  readonly run: (invocation: Invocation) => ExitCode | Promise<ExitCode>;
}

/** An option's value as a whole number from `least` to `most`, at most ten digits; undefined when it is none. */
export function wholeNumber(text: string, least: number, most: number): number | undefined {
  if (!/^\d{1,10}$/.test(text)) return undefined;
  const read = [...text].reduce((sum, digit) => sum * 10 + (digit.charCodeAt(0) - 48), 0);
  return read >= least && read <= most ? read : undefined;
}

/** Says how the command was called wrongly. */
export function wrong(terminal: Terminal, message: string): ExitCode {
  terminal.err(`isthmus: ${printable(message)}\n`);
  return exit.wrongUse;
}
