// Runs `npm ci` in a folder whose packages are absent or older than its lock file. Plain JavaScript for any Node from 18 on, because it
// runs before Node 24 is here.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";

/** `where` follows "npm ci" in what is told, `time` says how long the first time takes. Ends the process when it fails. */
export function install(folder, where, time, env = process.env) {
  const stampFile = `${folder}node_modules/.isthmus-setup`;
  const wanted = createHash("sha256")
    .update(readFileSync(`${folder}package-lock.json`))
    .digest("hex");
  if (existsSync(stampFile) && readFileSync(stampFile, "utf8") === wanted) return;
  console.log(`Setting up: npm ci${where} (the first time takes ${time})`);
  const run = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: folder,
    stdio: "inherit",
    shell: process.platform === "win32",
    env,
  });
  if (run.status !== 0) {
    console.error(`Setting up failed: \`npm ci\`${where} did not finish. Its own words stand above.`);
    process.exit(run.status ?? 1);
  }
  writeFileSync(stampFile, wanted);
}

/** Without npm's own variables: what an outer npm is set to, or runs on, is not for one in another folder. */
export function plainEnvironment() {
  return Object.fromEntries(Object.entries(process.env).filter(([name]) => !name.startsWith("npm_")));
}
