/** Texts at revisions, from a repository made for it: its settings start no program, and only this file is read. */
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { revisionsOf, textAtRevision } from "../../server/files/revisions.ts";

const folder = mkdtempSync(join(tmpdir(), "isthmus-revisions-"));
const plan = join(folder, "plans", "plan.isthmus");
const bare = mkdtempSync(join(tmpdir(), "isthmus-no-revisions-"));

function git(...words: string[]): string {
  const who = ["-c", "user.name=Somebody", "-c", "user.email=somebody@example.org", "-c", "commit.gpgsign=false"];
  return execFileSync("git", [...who, ...words], { cwd: folder, stdio: "pipe" })
    .toString()
    .trim();
}

function keep(text: string | Buffer, subject: string): void {
  writeFileSync(plan, text);
  git("add", ".");
  git("commit", "-q", "-m", subject);
}

beforeAll(() => {
  mkdirSync(join(folder, "plans"));
  git("init", "-q", "-b", "main");
  keep("first\n", "The first");
  keep("second\n", "The second, with a\u001b[31m colour");
  writeFileSync(join(folder, "other.txt"), "other\n");
  git("add", ".");
  git("commit", "-q", "-m", "Another file");
});
afterAll(() => {
  for (const each of [folder, bare]) rmSync(each, { recursive: true, force: true });
});

describe("revisions of a file", () => {
  test("those in which it changed, newest first", async () => {
    const found = await revisionsOf(plan);
    expect(found).toMatchObject([
      { subject: expect.stringMatching(/^The second/) as string },
      { id: expect.stringMatching(/^[0-9a-f]{7,}$/) as string, subject: "The first" },
    ]);
    expect(found).toHaveLength(2);
  });

  test("a folder without a repository says so", async () => {
    expect(await revisionsOf(join(bare, "plan.isthmus"))).toMatchObject({
      because: expect.stringMatching(/git says: not a git repository/) as string,
    });
    expect(await revisionsOf(join(bare, "gone", "plan.isthmus"))).toHaveProperty("because");
  });
});

describe("text at a revision", () => {
  test.each([
    ["HEAD", "second\n"],
    ["HEAD~2", "first\n"],
    ["main", "second\n"],
  ])("%s", async (revision, text) => {
    expect(await textAtRevision(plan, revision)).toMatchObject({ kind: "read", text });
  });

  test.each(["", "--help", "-p", "HEAD:other.txt", "HEAD\nmain", "HEAD main", "$(touch x)"])(
    "%j is no name of a revision",
    async (revision) => {
      expect(await textAtRevision(plan, revision)).toEqual({ because: "that is no name of a revision" });
    },
  );

  test("a revision that is not there", async () => {
    expect(await textAtRevision(plan, "nowhere")).toMatchObject({
      because: expect.stringMatching(/^git says: /) as string,
    });
  });

  test("what is no text is refused", async () => {
    keep(Buffer.from([0x66, 0xff, 0x0a]), "Bytes");
    expect(await textAtRevision(plan, "HEAD")).toMatchObject({ kind: "not-text" });
    keep("second\n", "Text again");
  });
});

test("no program of the repository's settings runs", async () => {
  const mark = join(folder, "ran");
  const program = join(folder, ".git", "program.sh");
  writeFileSync(program, `#!/bin/sh\ntouch '${mark}'\ncat\n`, { mode: 0o755 });
  for (const setting of [
    "core.fsmonitor",
    "core.pager",
    "diff.external",
    "gpg.program",
    "core.sshCommand",
    "pager.log",
  ])
    git("config", setting, program);
  git("config", "log.showSignature", "true");
  git("config", "diff.any.textconv", program);
  git("config", "filter.any.smudge", program);
  writeFileSync(join(folder, ".git", "info", "attributes"), "*.isthmus diff=any filter=any\n");
  expect(await revisionsOf(plan)).not.toHaveProperty("because");
  expect(await textAtRevision(plan, "HEAD")).toMatchObject({ text: "second\n" });
  expect(existsSync(mark)).toBe(false);
});
