// Brings the development dependencies in when they are absent or older than the lock file. Plain JavaScript for any Node
// from 18 on, because it runs before Node 24 is here.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const stampFile = `${root}node_modules/.isthmus-setup`;
const wanted = createHash("sha256")
  .update(readFileSync(`${root}package-lock.json`))
  .digest("hex");
const present = existsSync(stampFile) && readFileSync(stampFile, "utf8") === wanted;

if (!present) {
  console.log("Setting up: npm ci (the first time takes a minute or two)");
  const run = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: root,
    stdio: "inherit",
    shell: process.platform === "win32",
  });
  if (run.status !== 0) {
    console.error("Setting up failed: `npm ci` did not finish. Its own words stand above.");
    process.exit(run.status ?? 1);
  }
  writeFileSync(stampFile, wanted);
}
