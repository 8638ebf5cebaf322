/**
 * The only reader and writer of the disk. Reading is confined to the library's root, refuses anything but a regular file of
 * bounded size, and decodes strictly, so that a file that is not UTF-8 is reported and never rewritten. It knows no language.
 */
import {
  closeSync,
  constants,
  existsSync,
  fstatSync,
  fsyncSync,
  lstatSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from "node:fs";
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { largestFile, refusePath, tooLarge } from "./paths.ts";

export type FileRead =
  | { readonly kind: "read"; readonly file: string; readonly text: string }
  | { readonly kind: "missing" | "outside" | "not-a-file" | "not-text"; readonly because: string };

/** Reads `file` (any path) without confinement: for the files a person names on the command line. */
export function readNamed(file: string): FileRead {
  return readRegular(resolve(file));
}

/**
 * Reads `path`, as written in `from`, for an import. It must be relative, stay inside `root` after every link is followed, and
 * be a regular file; the file that was opened is the one that is checked.
 */
export function readInside(root: string, from: string, path: string): FileRead {
  const refused = refusePath(path);
  if (refused !== undefined) return { kind: "outside", because: refused };
  const target = resolve(dirname(from), ...path.split("/"));
  if (!isInside(resolve(root), target))
    return { kind: "outside", because: "the path leaves the folder of the library" };
  if (!existsSync(target)) return { kind: "missing", because: "there is no such file" };
  let real: string;
  try {
    real = realpathSync(target);
    if (!isInside(realpathSync(root), real))
      return { kind: "outside", because: "a link leads out of the library's folder" };
  } catch {
    return { kind: "missing", because: "the file cannot be reached" };
  }
  const read = readRegular(real);
  return read.kind === "read" ? { ...read, file: target } : read;
}

/** The library's root for a file named on the command line: the nearest folder above with `isthmus.json` or `.git`, else its own. */
export function libraryRoot(file: string): string {
  const own = dirname(resolve(file));
  for (let folder = own; ; folder = dirname(folder)) {
    if (existsSync(join(folder, "isthmus.json")) || existsSync(join(folder, ".git"))) return folder;
    if (dirname(folder) === folder) return own;
  }
}

/** Every `.isthmus` file named by or below `paths`, sorted; a path that is neither comes back in `missing`. */
export function filesBelow(paths: readonly string[]): { readonly files: string[]; readonly missing: string[] } {
  const files = new Set<string>();
  const missing: string[] = [];
  for (const path of paths) {
    if (!existsSync(path)) missing.push(path);
    else if (statSync(path).isDirectory()) collect(path, files);
    else files.add(path);
  }
  return { files: [...files].sort(byName), missing };
}

/**
 * Replaces a file whole or not at all: a temporary file beside it, flushed, then renamed over it. Refuses (returns false) when
 * the file no longer holds `expected`, so that nobody else's change is lost.
 */
export function replaceFile(file: string, expected: string, text: string): boolean {
  const target = realpathSync(file);
  const now = readRegular(target);
  if (now.kind !== "read" || now.text !== expected) return false;
  const temporary = join(dirname(target), `.${basename(target)}.${crypto.randomUUID()}`);
  const handle = openSync(temporary, "wx", statSync(target).mode);
  try {
    writeAll(handle, Buffer.from(text, "utf8"));
    fsyncSync(handle);
    closeSync(handle);
    renameSync(temporary, target);
    return true;
  } catch (failure) {
    if (existsSync(temporary)) unlinkSync(temporary);
    throw failure;
  }
}

/** Standard input as strict UTF-8. */
export function readStandardInput(): FileRead {
  return decode("-", readFileSync(0));
}

function writeAll(handle: number, bytes: Buffer): void {
  for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
}

function collect(folder: string, into: Set<string>): void {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    if (entry.name.startsWith(".") || entry.name === "node_modules") continue;
    const path = join(folder, entry.name);
    if (entry.isDirectory()) collect(path, into);
    else if (entry.isFile() && entry.name.endsWith(".isthmus")) into.add(path);
  }
}

function readRegular(file: string): FileRead {
  let handle: number;
  try {
    // A pipe would block the opening itself, so the kind is asked before and, against a swap, again after opening.
    const kind = lstatSync(realpathSync(file));
    if (!kind.isFile()) return { kind: "not-a-file", because: "it is not a regular file" };
    handle = openSync(file, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  } catch {
    return { kind: "missing", because: "there is no such file, or it may not be read" };
  }
  try {
    const state = fstatSync(handle);
    if (!state.isFile()) return { kind: "not-a-file", because: "it is not a regular file" };
    if (state.size > largestFile) return { kind: "not-a-file", because: tooLarge };
    return decode(file, readUpTo(handle, largestFile));
  } finally {
    closeSync(handle);
  }
}

function readUpTo(handle: number, most: number): Buffer {
  const chunks: Buffer[] = [];
  for (let total = 0; total <= most; ) {
    const chunk = Buffer.alloc(65536);
    const count = readSync(handle, chunk, 0, chunk.length, null);
    if (count === 0) break;
    chunks.push(chunk.subarray(0, count));
    total += count;
  }
  return Buffer.concat(chunks);
}

/** Strictly UTF-8. */
export function decode(file: string, bytes: Buffer): FileRead {
  if (bytes.includes(0)) {
    return { kind: "not-text", because: `it holds a NUL byte at byte ${bytes.indexOf(0)}; plans are UTF-8 text` };
  }
  try {
    const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
    return { kind: "read", file, text };
  } catch {
    const bad = firstBadByte(bytes);
    const where = bad === bytes.length ? "it ends inside a character" : `byte ${bad} cannot be read`;
    return { kind: "not-text", because: `it is not UTF-8 text: ${where}` };
  }
}

function firstBadByte(bytes: Buffer): number {
  let low = 0;
  let high = bytes.length;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (decodesAsPrefix(bytes.subarray(0, middle))) low = middle;
    else high = middle - 1;
  }
  return low;
}

function decodesAsPrefix(bytes: Buffer): boolean {
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}

/** Whether `target` lies below `root`; both absolute, links not followed. */
export function isInside(root: string, target: string): boolean {
  const path = relative(root, target);
  return path !== "" && path !== ".." && !path.startsWith(`..${sep}`) && !isAbsolute(path);
}

function byName(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
