/** Files checked in threads beside each other come out as without them; a thread that falls is told of, and nothing waits for it. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Checked, Settings } from "../../server/command-line/checked.ts";
import { checkedBeside } from "../../server/command-line/jobs.ts";
import { sampleText } from "../check.ts";
import { isthmus, isthmusFrom, samples } from "./ran.ts";

const program = fileURLToPath(new URL("../../server/command-line/start.ts", import.meta.url));
const bundle = fileURLToPath(new URL("../../dist/isthmus.js", import.meta.url));
const settings: Settings = { failOn: "error", report: "text", standardName: undefined, colours: false };
/** More than two threads have under way at once. */
const count = 70;

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "isthmus-jobs-"));
  for (const each of ["isthmus.json", "catalogue", "protocol"])
    cpSync(join(samples, each), join(folder, each), { recursive: true });
  mkdirSync(join(folder, "plans"));
  const plan = sampleText("plans/simple-shaft.isthmus");
  for (let at = 0; at < count; at += 1) {
    // Each says something of its own, so that an answer in another's place would be seen.
    const text = at % 10 === 9 ? plan : plan.replace("length 330 mm", `length ${600 + at} mm`);
    writeFileSync(join(folder, `plans/${1000 + at}.isthmus`), at === 40 ? Buffer.from([0x69, 0xff]) : text);
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function all(from: AsyncGenerator<Checked>): Promise<readonly Checked[]> {
  const found: Checked[] = [];
  for await (const each of from) found.push(each);
  return found;
}

describe("check --jobs", () => {
  test.each([["text"], ["json"]])("says the same in the same order, as %s", async (report) => {
    const alone = await isthmus("check", "--report", report, folder);
    expect(alone.code).toBe(3);
    expect(alone.err).toContain("1040.isthmus");
    expect(alone.out.match(/"nail-unlisted"|\bnail-unlisted\b/g)?.length).toBeGreaterThan(50);
    expect(await isthmusFrom(program, ["check", "--report", report, "--jobs", "2", folder])).toEqual(alone);
  });

  test("as bundled too, with the same exit code", () => {
    const words = ["check", ...Array.from({ length: 20 }, (_, at) => join(folder, `plans/${1030 + at}.isthmus`))];
    const alone = spawnSync(process.execPath, [bundle, ...words], { encoding: "utf8" });
    const beside = spawnSync(process.execPath, [bundle, ...words, "--jobs", "2"], { encoding: "utf8" });
    expect([alone.status, alone.stdout.includes("1049.isthmus: nothing found")]).toEqual([3, true]);
    expect([beside.stdout, beside.stderr, beside.status]).toEqual([alone.stdout, alone.stderr, alone.status]);
  });

  test("in one process where the commands are called without the program", async () => {
    const plan = join(folder, "plans/1009.isthmus");
    expect(await isthmus("check", "--jobs", "2", plan)).toEqual(await isthmus("check", plan));
  });

  test.each([["0"], ["65"], ["two"], ["1.5"], ["-1"], [""]])('"%s" is wrong use', async (jobs) => {
    const { code, out, err } = await isthmusFrom(program, ["check", `--jobs=${jobs}`, folder]);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toContain("--jobs takes a whole number from 1 to 64");
  });
});

describe("a thread", () => {
  const files = Array.from({ length: count }, (_, at) => `${at}.isthmus`);

  function written(name: string, text: string): string {
    const file = join(folder, name);
    writeFileSync(file, text);
    return file;
  }

  test("that ends before its time is told of", async () => {
    const ends = written("ends.mjs", "process.exit(0);");
    await expect(all(checkedBeside(files, settings, 2, ends))).rejects.toThrow("a thread ended before its time");
  });

  test("that ends between two batches is told of", async () => {
    const ends = written(
      "answers-once.mjs",
      `import { parentPort } from "node:worker_threads";
let asked = 0;
parentPort.on("message", (batch) => {
  asked += 1;
  parentPort.postMessage(batch.map((path) => ({ out: path, err: "", broken: false, failed: false })));
  if (asked === 2) process.exit(0);
});`,
    );
    const answers = checkedBeside(files, settings, 1, ends);
    const first = await answers.next();
    expect(first.value?.out).toBe("0.isthmus");
    await new Promise((resolve) => setTimeout(resolve, 500));
    await expect(all(answers)).rejects.toThrow("a thread ended before its time");
  });

  test("that fails is told of with its own words", async () => {
    const fails = written("fails.mjs", "throw new Error('no memory is left');");
    await expect(all(checkedBeside(files, settings, 2, fails))).rejects.toThrow("no memory is left");
  });

  test("is ended when nobody wants more", async () => {
    const answers = checkedBeside([join(folder, "plans/1009.isthmus"), ...files], settings, 2, program);
    expect((await answers.next()).value?.out).toContain("1009.isthmus: nothing found");
    expect(await answers.return(undefined)).toEqual({ value: undefined, done: true });
  });

  test("is not started for nothing", async () => {
    expect(await all(checkedBeside([], settings, 2, "there is no such program"))).toEqual([]);
  });
});
