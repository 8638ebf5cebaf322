/** `isthmus tidy`: canonical layout. A text with anything broken in it is left alone, and so is one whose meaning would change. */
import { layout } from "../../grammar/layout.ts";
import { parse } from "../../grammar/parse.ts";
import { filesBelow, readNamed, replaceFile } from "../files/disk.ts";
import type { Command, Invocation } from "./command.ts";
import { type ExitCode, exit } from "./exit.ts";
import { printable, type Terminal } from "./terminal.ts";

type Tidied = "tidy already" | "tidied" | "not tidy" | "left alone" | "not read";

export const tidy: Command = {
  name: "tidy",
  usage: "tidy PATHS…",
  does: "put texts into canonical layout; nothing is written that would change a meaning",
  options: { check: { type: "boolean", help: "write nothing; exit 1 when a text is not in canonical layout" } },
  run: tidyPaths,
};

function tidyPaths({ paths, flag, terminal }: Invocation): ExitCode {
  if (paths.length === 0) {
    terminal.err("isthmus: tidy needs at least one file or folder\n");
    return exit.wrongUse;
  }
  const { files, missing } = filesBelow(paths);
  for (const path of missing) terminal.err(`isthmus: ${printable(path)}: there is no such file or folder\n`);
  const results = files.map((file) => tidyFile(file, flag("check"), terminal));
  const count = (kind: Tidied): number => results.filter((result) => result === kind).length;
  terminal.out(
    flag("check")
      ? `${files.length} read, ${count("not tidy")} not in canonical layout\n`
      : `${files.length} read, ${count("tidied")} changed\n`,
  );
  if (missing.length > 0 || count("not read") > 0 || (files.length === 0 && missing.length === 0)) return exit.broken;
  return count("not tidy") > 0 || count("left alone") > 0 ? exit.found : exit.clear;
}

function tidyFile(file: string, checkOnly: boolean, terminal: Terminal): Tidied {
  const read = readNamed(file);
  if (read.kind !== "read") {
    terminal.err(`isthmus: ${printable(file)}: ${read.because}\n`);
    return "not read";
  }
  const text = layout(parse(read.text));
  if (text === undefined) {
    terminal.err(`isthmus: ${printable(file)}: left alone, it cannot be read whole; \`isthmus check\` says where\n`);
    return "left alone";
  }
  if (text === read.text) return "tidy already";
  if (checkOnly) {
    terminal.out(`${printable(file)}: not in canonical layout\n`);
    return "not tidy";
  }
  if (!replaceFile(file, read.text, text)) {
    terminal.err(`isthmus: ${printable(file)}: left alone, it changed while it was read\n`);
    return "not read";
  }
  terminal.out(`${printable(file)}: tidied\n`);
  return "tidied";
}
