/** The exit codes of every command, in one place. */
export const exit = {
  /** Nothing at or above the asked grade. */
  clear: 0,
  /** Findings, or texts that are not in canonical layout. */
  found: 1,
  /** The command was called wrongly. */
  wrongUse: 2,
  /** It could not run to the end: a file that cannot be read, a fault of the tool. */
  broken: 3,
} as const;

export type ExitCode = (typeof exit)[keyof typeof exit];
