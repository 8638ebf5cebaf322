/** What a command is: its words for the help, its options, and the function that runs it. */
import type { ExitCode } from "./exit.ts";
import type { Terminal } from "./terminal.ts";

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
