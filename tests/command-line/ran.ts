/** Runs the command line in this process over a copy of the samples, and keeps what it wrote. Not a test itself. */
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll } from "vitest";
import { run } from "../../server/command-line/main.ts";

export const samples = fileURLToPath(new URL("../../samples", import.meta.url));

/** A folder of its own with the samples in it, made before the file's tests and gone after them. */
export function copiedSamples(): (...path: readonly string[]) => string {
  let folder = "";
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "isthmus-command-"));
    cpSync(samples, folder, { recursive: true });
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return (...path) => join(folder, ...path);
}

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export function isthmus(...words: readonly string[]): Promise<Ran> {
  return isthmusFrom(undefined, words);
}

/** `program` is the file that threads are started from. */
export async function isthmusFrom(program: string | undefined, words: readonly string[]): Promise<Ran> {
  let out = "";
  let err = "";
  const terminal = {
    colours: false,
    out: (text: string) => {
      out += text;
    },
    err: (text: string) => {
      err += text;
    },
  };
  const code = await run(words, terminal, program);
  return { code, out, err };
}
