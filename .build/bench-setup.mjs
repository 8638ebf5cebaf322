// Brings in what Isthmus is measured beside: the packages of tests/bench, when they are absent or older than their lock file.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const folder = fileURLToPath(new URL("../tests/bench/", import.meta.url));
const stampFile = `${folder}node_modules/.isthmus-setup`;
const wanted = createHash("sha256")
  .update(readFileSync(`${folder}package-lock.json`))
  .digest("hex");

if (!existsSync(stampFile) || readFileSync(stampFile, "utf8") !== wanted) {
  console.log("Setting up: npm ci in tests/bench (the first time takes half a minute)");
  // Without npm's own variables, which would carry the settings of the npm that runs this script into the one it starts.
  const kept = Object.entries(process.env).filter(([name]) => !name.startsWith("npm_"));
  const run = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: folder,
    stdio: "inherit",
    shell: process.platform === "win32",
    env: Object.fromEntries(kept),
  });
  if (run.status !== 0) {
    console.error("Setting up failed: `npm ci` in tests/bench did not finish. Its own words stand above.");
    process.exit(1);
  }
  writeFileSync(stampFile, wanted);
}
