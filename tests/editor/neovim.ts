/**
 * The language server in another editor: a Neovim without a screen opens a badly laid out plan with mistakes, gets its messages and a
 * hover, and lays it out. The editor's side is `neovim.lua`.
 */
import { spawnSync } from "node:child_process";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));

/** What `neovim.lua` writes down. */
interface Seen {
  readonly failed?: string;
  readonly diagnostics: readonly { readonly line: number; readonly code?: string; readonly message: string }[];
  readonly hover: string;
  readonly before: string;
  readonly after: string;
}

export const nameInNeovim = "in Neovim a plan gets its messages and a hover, and is laid out";

/** Says why it did not hold; undefined when it did. */
export function inNeovim(state: string): string | undefined {
  const library = `${state}/neovim`;
  const plan = `${library}/plans/typical-mistakes.isthmus`;
  cpSync(`${root}samples`, library, { recursive: true });
  const laidOut = readFileSync(plan, "utf8");
  writeFileSync(plan, laidOut.replaceAll(/^ {4}/gm, "      ").replaceAll(" mm", "mm"));
  const run = spawnSync(
    "nvim",
    ["--headless", "-u", "NONE", "-i", "NONE", "-n", "-c", `luafile ${root}tests/editor/neovim.lua`],
    {
      encoding: "utf8",
      timeout: 120_000,
      env: {
        ...process.env,
        XDG_STATE_HOME: state,
        XDG_CACHE_HOME: state,
        ISTHMUS_NODE: process.execPath,
        ISTHMUS_PROGRAM: `${root}dist/isthmus.js`,
        ISTHMUS_PLAN: plan,
        ISTHMUS_LIBRARY: library,
        ISTHMUS_SEEN: `${state}/seen.json`,
      },
    },
  );
  if (run.status !== 0) return `nvim ended with ${run.status ?? run.signal}: ${run.stderr || String(run.error)}`;
  return judged(JSON.parse(readFileSync(`${state}/seen.json`, "utf8")) as Seen, laidOut);
}

function judged(seen: Seen, laidOut: string): string | undefined {
  if (seen.failed !== undefined) return seen.failed;
  const line = seen.before.split("\n").findIndex((each) => /^ *ream /.test(each)) + 1;
  const overshoot = seen.diagnostics.find(({ message }) => /larger than the nail/.test(message));
  if (overshoot === undefined || overshoot.line !== line)
    return `no message about the reaming in line ${line}: ${JSON.stringify(seen.diagnostics)}`;
  if (!/last reamer head over the nail/i.test(seen.hover) || !/\d mm/.test(seen.hover))
    return `the hover tells no reckoning: ${seen.hover}`;
  if (seen.before === seen.after) return "laying out changed nothing";
  return seen.after === laidOut ? undefined : "the plan was not laid out as the sample is";
}
