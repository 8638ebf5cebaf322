/**
 * Drives the packaged extension in a real workbench in a real browser, as a writer would, and says what held. Each scenario works on
 * its own copy of the samples. Run by Node; the package must have been made. `--picture` also renews the picture in the read-me.
 */
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { startWorkbench } from "./code-server.ts";
import { type Editor, openBrowser, openEditor } from "./editor.ts";
import { inNeovim, nameInNeovim } from "./neovim.ts";
import { type Scenario, scenarios, type WorkbenchKind } from "./scenarios.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const pictures = `${root}tests/editor/screenshots`;

const kinds: readonly WorkbenchKind[] = ["trusted", "restricted", "browser"];
const state = mkdtempSync(join(tmpdir(), "isthmus-editor-"));
let folders = 0;
// Ended from outside, it ends what it started.
for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => process.exit(130));
const only = process.argv.slice(2).filter((each) => !each.startsWith("--"));

const chosen = scenarios.filter(({ name }) => isChosen(name));
const all = chosen.length + (isChosen(nameInNeovim) ? 1 : 0);

rmSync(pictures, { recursive: true, force: true });
mkdirSync(pictures, { recursive: true });
const waiting = new Map(
  kinds.map((kind) => [kind, chosen.filter((scenario) => (scenario.workbench ?? "trusted") === kind)]),
);
let passed = 0;
try {
  // A scenario mostly waits: two are driven beside each other. The second begins with the kinds that have few.
  const [first, second] = await Promise.all([drive(kinds, 1), drive(kinds.toReversed(), 2)]);
  passed = first + second;
  if (isChosen(nameInNeovim)) passed += told(nameInNeovim, inNeovim(state));
} finally {
  rmSync(state, { recursive: true, force: true });
}
console.log(`${passed} of ${all} scenarios held`);
// In the shape of the unit tests' report, so that both can be added up.
const counts = { numPassedTests: passed, numFailedTests: all - passed };
writeFileSync(`${root}dist/editor-report.json`, `${JSON.stringify(counts)}\n`);
process.exitCode = passed === all && passed > 0 ? 0 : 1;

function isChosen(name: string): boolean {
  return only.length === 0 || only.some((each) => name.includes(each));
}

/** Prints how it went; counts it when it held. */
function told(name: string, why: string | undefined): number {
  console.log(why === undefined ? `ok      ${name}` : `NOT OK  ${name}\n        ${why}`);
  return why === undefined ? 1 : 0;
}

/** Takes what waits, kind after kind, each kind in a workbench of its own; the number of scenarios that held. */
async function drive(inOrder: readonly WorkbenchKind[], lane: number): Promise<number> {
  let held = 0;
  for (const kind of inOrder) {
    const some = waiting.get(kind) ?? [];
    if (some.length > 0) held += await driveKind(kind, some, `${state}/${kind}-${lane}`);
  }
  return held;
}

/** Takes scenarios off `some` until none is left. */
async function driveKind(kind: WorkbenchKind, some: Scenario[], own: string): Promise<number> {
  const workbench = await startWorkbench({
    state: own,
    vsix: `${root}dist/isthmus${kind === "browser" ? ".browser-alone" : ""}.vsix`,
    graceSeconds: "1",
    restricted: kind === "restricted",
  });
  const browser = await openBrowser();
  let held = 0;
  try {
    const open = (folder: string): Promise<Editor> => openEditor(browser, workbench.url(folder));
    for (let scenario = some.shift(); scenario !== undefined; scenario = some.shift()) {
      const why = await run(scenario, open, own);
      // A workbench in a browser loses a key now and then; what does not hold twice is a fault, and the first miss is told all the same.
      if (why !== undefined) console.log(`again   ${scenario.name}\n        ${why}`);
      held += told(scenario.name, why === undefined ? undefined : await run(scenario, open, own));
    }
  } finally {
    await browser.close();
    await workbench.stop();
  }
  return held;
}

function leaveAlone(plans: string, file: string): void {
  for (const name of readdirSync(plans)) if (name !== file) rmSync(`${plans}/${name}`);
}

/** Says why the scenario did not hold; undefined when it did. */
async function run(
  scenario: Scenario,
  open: (folder: string) => Promise<Editor>,
  own: string,
): Promise<string | undefined> {
  // A folder of its own, so that the workbench remembers nothing of the one before.
  folders += 1;
  const folder = `${state}/library-${folders}`;
  cpSync(`${root}samples`, folder, { recursive: true });
  const { file } = scenario;
  if (scenario.alone !== false && file.startsWith("plans/")) leaveAlone(`${folder}/plans`, file.slice("plans/".length));
  if (scenario.write !== undefined)
    writeFileSync(`${folder}/${file}`, scenario.write(readFileSync(`${folder}/${file}`, "utf8")));
  const editor = await open(folder);
  try {
    await scenario.run({
      page: editor.page,
      text: readFileSync(`${folder}/${file}`, "utf8"),
      onDisk: () => readFileSync(`${folder}/${file}`, "utf8"),
      name: file.slice(file.lastIndexOf("/") + 1),
      folder,
      state: own,
      picture: (name) => editor.page.screenshot({ path: `${pictures}/${name}.png` }),
      readmePicture: async () => {
        if (process.argv.includes("--picture"))
          await editor.page.screenshot({ path: `${root}client/images/editor.png` });
      },
    });
    return editor.outside.length === 0 ? undefined : `asked outside this machine: ${editor.outside.join(", ")}`;
  } catch (failure) {
    await editor.page.screenshot({ path: `${pictures}/failed-${scenario.name.replaceAll(/\W+/g, "-")}.png` });
    return failure instanceof Error ? failure.message : String(failure);
  } finally {
    await editor.close();
  }
}
