/**
 * Opens a VS Code workbench on this machine alone, with the extension and a copy of the samples, for a person to try: prints its
 * address and stays until Ctrl-C. The package must have been made. A folder of one's own may be named instead of the samples.
 */
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { startWorkbench } from "./code-server.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const state = mkdtempSync(join(tmpdir(), "isthmus-workbench-"));
const named = process.argv[2];
const folder = named === undefined ? `${state}/samples` : resolve(named);
if (named === undefined) cpSync(`${root}samples`, folder, { recursive: true });

// A port of its own choosing is asked for by PORT, for whoever has to forward it.
const workbench = await startWorkbench({
  state,
  vsix: `${root}dist/isthmus.vsix`,
  port: process.env.PORT ?? "0",
});
console.log(`The workbench stands at ${workbench.url(folder)}`);
console.log(
  named === undefined ? "It shows a copy of the samples, which goes when it is stopped." : `It shows ${folder}.`,
);
console.log("Ctrl-C stops it.");

let stopping = false;
for (const signal of ["SIGINT", "SIGTERM"] as const) {
  process.on(signal, () => {
    if (stopping) return;
    stopping = true;
    void workbench.stop().then(() => rmSync(state, { recursive: true, force: true }));
  });
}
