// Brings in what the tests in real editors need: a browser, Neovim and the headers of one library from Debian when they are absent, and
// the packages of tests/editor when they are absent or older than their lock file. CHROMIUM names a browser that stands elsewhere.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { install, plainEnvironment } from "./install.mjs";

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
// An outer npm on another Node would have the workbench's install refuse this one.
install(folder, " in tests/editor", "two minutes and 650 MB", plainEnvironment());

function installFromDebian(names) {
  if (names.length === 0) return;
  console.log(`Setting up: apt-get install ${names.join(" ")}`);
  for (const command of [
    ["update", "-qq"],
    ["install", "-y", "-qq", "--no-install-recommends", ...names],
  ]) {
    const run = spawnSync(debianInstaller, command, {
      stdio: ["ignore", "ignore", "inherit"],
      env: { ...plainEnvironment(), DEBIAN_FRONTEND: "noninteractive" },
    });
    if (run.status !== 0) stop(`apt-get ${command[0]} failed; these Debian packages are needed: ${names.join(" ")}`);
  }
}

function stop(why) {
  console.error(`Setting up failed: ${why}`);
  process.exit(1);
}
