// Brings in what the tests in real editors need: a browser, Neovim and the headers of one library from Debian when they are absent, and
// the packages of tests/editor when they are absent or older than their lock file. CHROMIUM names a browser that stands elsewhere.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const folder = fileURLToPath(new URL("../tests/editor/", import.meta.url));

const debianInstaller = "apt-get";

/** Debian package by a file that shows it is installed. The headers are for one native part of the workbench. */
const debian = new Map([
  [process.env.CHROMIUM ?? "/usr/bin/chromium", "chromium"],
  ["/usr/bin/nvim", "neovim"],
  ["/usr/include/gssapi/gssapi.h", "libkrb5-dev"],
  ["/usr/bin/pkg-config", "pkg-config"],
]);

installFromDebian([...debian].filter(([file]) => !existsSync(file)).map(([, name]) => name));
installPackages();

function installFromDebian(names) {
  if (names.length === 0) return;
  console.log(`Setting up: apt-get install ${names.join(" ")}`);
  for (const command of [
    ["update", "-qq"],
    ["install", "-y", "-qq", "--no-install-recommends", ...names],
  ]) {
    const run = spawnSync(debianInstaller, command, {
      stdio: ["ignore", "ignore", "inherit"],
      env: plainEnvironment(),
    });
    if (run.status !== 0) stop(`apt-get ${command[0]} failed; these Debian packages are needed: ${names.join(" ")}`);
  }
}

function installPackages() {
  const stampFile = `${folder}node_modules/.isthmus-setup`;
  const wanted = createHash("sha256")
    .update(readFileSync(`${folder}package-lock.json`))
    .digest("hex");
  if (existsSync(stampFile) && readFileSync(stampFile, "utf8") === wanted) return;
  console.log("Setting up: npm ci in tests/editor (the first time takes two minutes and 650 MB)");
  const run = spawnSync("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"], {
    cwd: folder,
    stdio: "inherit",
    env: plainEnvironment(),
  });
  if (run.status !== 0) stop("`npm ci` in tests/editor did not finish. Its own words stand above.");
  writeFileSync(stampFile, wanted);
}

/** Without npm's own variables: an outer npm on another Node would have the workbench's install refuse this one. */
function plainEnvironment() {
  const kept = Object.entries(process.env).filter(([name]) => !name.startsWith("npm_"));
  return { ...Object.fromEntries(kept), DEBIAN_FRONTEND: "noninteractive" };
}

function stop(why) {
  console.error(`Setting up failed: ${why}`);
  process.exit(1);
}
