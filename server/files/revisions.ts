/**
 * Texts of a file as git keeps them. Git is asked for contents alone: no hook, filter, signature check or other program of the
 * repository's settings runs, and nothing is fetched. It knows no language.
 */
import { execFile } from "node:child_process";
import { basename, dirname } from "node:path";
import { decode, type FileRead } from "./disk.ts";
import { largestFile, tooLarge } from "./paths.ts";

export interface Revision {
  /** As git shortens it. */
  readonly id: string;
  /** Of its commit, as YYYY-MM-DD. */
  readonly date: string;
  readonly subject: string;
}

export interface NotKept {
  readonly because: string;
}

/** The latest revisions in which this file changed, newest first; at most 100. */
export async function revisionsOf(file: string): Promise<readonly Revision[] | NotKept> {
  const format = "--format=%h%x09%cs%x09%s";
  const asked = await git(file, ["log", "--max-count=100", "--no-show-signature", format, "--", basename(file)]);
  if (!Buffer.isBuffer(asked)) return asked;
  return asked
    .toString("utf8")
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => {
      const [id = "", date = "", ...subject] = line.split("\t");
      return { id, date, subject: subject.join("\t") };
    });
}

/** The file as it was at a revision, in git's own words for one: an id, a branch, a tag, `HEAD~2`. */
export async function textAtRevision(file: string, revision: string): Promise<FileRead | NotKept> {
  if (!/^[A-Za-z0-9_][A-Za-z0-9_./~^@{}+-]*$/.test(revision)) return { because: "that is no name of a revision" };
  const asked = await git(file, ["cat-file", "blob", `${revision}:./${basename(file)}`]);
  return Buffer.isBuffer(asked) ? decode(file, asked) : asked;
}

/** What a repository's settings, written by whoever made it, may not make git do. */
const plainGit = ["core.fsmonitor=false", "protocol.allow=never"].flatMap((setting) => ["-c", setting]);

function git(file: string, words: readonly string[]): Promise<Buffer | NotKept> {
  const env = {
    ...process.env,
    GIT_OPTIONAL_LOCKS: "0",
    GIT_TERMINAL_PROMPT: "0",
    GIT_NO_LAZY_FETCH: "1",
    LC_ALL: "C",
  };
  const options = { cwd: dirname(file), env, encoding: "buffer", maxBuffer: largestFile, timeout: 10_000 } as const;
  return new Promise((resolve) => {
    execFile("git", ["--no-pager", "--literal-pathspecs", ...plainGit, ...words], options, (failure, out, said) => {
      resolve(failure === null ? out : { because: reason(failure, said) });
    });
  });
}

function reason({ code, killed }: { readonly code?: unknown; readonly killed?: boolean }, said: Buffer): string {
  if (code === "ENOENT") return "git is not installed here, or the folder is gone";
  if (code === "ERR_CHILD_PROCESS_STDIO_MAXBUFFER") return tooLarge;
  if (killed === true) return "git took longer than ten seconds";
  const [line = ""] = said.toString("utf8").split("\n");
  return `git says: ${line.replace(/^fatal: /, "") || "nothing"}`;
}
