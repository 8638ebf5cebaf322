/**
 * What a writer does with a plan in the editor, each from opening the file to looking at what came of it. What the findings and
 * reckonings must say is proved elsewhere; here it is proved that they reach the screen and the fixes reach the file.
 */

import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { mostFalls } from "../../client/falls.ts";
import {
  choose,
  coloursOf,
  command,
  eventually,
  goTo,
  hover,
  offers,
  openFile,
  problems,
  save,
  shownLines,
} from "./editor.ts";

export interface Stage {
  readonly page: Page;
  /** The text of the file as it was opened. */
  readonly text: string;
  readonly onDisk: () => string;
  readonly name: string;
  /** The folder that is open: a copy of the samples, without the other plans unless the scenario keeps them. */
  readonly folder: string;
  /** The folder everything of the workbench lies in. */
  readonly state: string;
  readonly picture: (name: string) => Promise<unknown>;
  /** Takes the picture for the read-me when that was asked for. */
  readonly readmePicture: () => Promise<void>;
}

/** With folders that are trusted, that are not, or with the package that has no entry but the browser's. */
export type WorkbenchKind = "trusted" | "restricted" | "browser";

export interface Scenario {
  readonly name: string;
  /** Path in the samples. */
  readonly file: string;
  /** False keeps the other plans of the samples in the folder, whose problems are listed too. */
  readonly alone?: boolean;
  /** "trusted" when not given. */
  readonly workbench?: WorkbenchKind;
  /** Changes the file before it is opened. */
  readonly write?: (text: string) => string;
  readonly run: (stage: Stage) => Promise<void>;
}

const mistakes = "plans/typical-mistakes.isthmus";
const sound = "plans/simple-shaft.isthmus";

function hold(held: boolean, what: string): void {
  if (!held) throw new Error(what);
}

function naming(slug: string): (messages: readonly string[]) => boolean {
  return (messages) => messages.some((each) => each.includes(slug));
}

/** Something with a unit besides the finding's own words. */
function tellsReckoning(read: string): boolean {
  return /\d mm/.test(read.replace(/The last head.*?reaming-overshoot\)/s, ""));
}

async function linesWithHints(page: Page, text: string): Promise<number> {
  const lines = new Set(text.split("\n").map(withoutBlanks));
  return (await shownLines(page)).filter((each) => !lines.has(withoutBlanks(each))).length;
}

/** Waits until the server has answered about the open file. */
async function ready(page: Page, text: string): Promise<void> {
  await eventually(
    () => linesWithHints(page, text),
    (count) => count > 0,
    "no hint came",
  );
}

/** How many of each grade, once they are there: hints may come before them. */
function problemsFound(page: Page): ReturnType<typeof problemCounts> {
  return eventually(
    () => problemCounts(page),
    ([errors = 0]) => errors > 0,
    "the server has found nothing",
  );
}

function withoutBlanks(text: string): string {
  return text.replaceAll(/\s+/g, "");
}

export const scenarios: readonly Scenario[] = [
  {
    name: "words, numbers, units, texts and notes are coloured apart",
    file: sound,
    run: async ({ page, name, text, picture }) => {
      await openFile(page, name);
      await goTo(page, text, "ream 8.5 mm");
      const ream = await eventually(
        () => coloursOf(page, "ream 8.5 mm"),
        (each) => each.size > 3,
        "no colours",
      );
      const kinds = ["ream", "8.5", "to"].map((each) => ream.get(each));
      hold(new Set(kinds).size === 3 && !kinds.includes(undefined), `colours of ream, 8.5 and to: ${kinds.join(", ")}`);
      await picture("colours");
    },
  },
  {
    name: "a plan without mistakes has no error and no warning",
    file: sound,
    run: async ({ page, name, text, picture }) => {
      await openFile(page, name);
      await goTo(page, text, "nail tarnbeck");
      await eventually(
        () => shownLines(page),
        (lines) => lines.some((each) => /nail tarnbeck.*sunk 9 mm.+/.test(each)),
        "no hint came",
      );
      const squiggles = await page.locator(".squiggly-error, .squiggly-warning").count();
      hold(squiggles === 0, `${squiggles} squiggles`);
      hold((await page.locator(".markers-panel").count()) === 0, "the list of problems was open");
      await picture("sound");
    },
  },
  {
    name: "reaming too far: squiggle, message, hover, fix, and the finding is gone; undo brings the text back",
    file: mistakes,
    run: async ({ page, name, text, onDisk, picture, readmePicture }) => {
      const line = "ream 8.5 mm to 12.5 mm by 0.5 mm";
      await openFile(page, name);
      await goTo(page, text, line, 7);
      await eventually(
        () => page.locator(".squiggly-error, .squiggly-warning").count(),
        (count) => count > 0,
        "no squiggle",
      );
      await eventually(() => problems(page), naming("reaming-overshoot"), "the problem is not listed");
      await goTo(page, text, line, 7);
      await hover(page, (read) => /larger than the nail/.test(read), "the hover does not tell the finding");
      await hover(page, tellsReckoning, "the hover tells no reckoning");
      await picture("finding");
      await readmePicture();
      await page.keyboard.press("Escape");
      const titles = await offers(page);
      hold(
        titles.some((each) => each.includes("over the nail")),
        `offered: ${titles.join("; ")}`,
      );
      await picture("offers");
      await choose(page, "over the nail");
      await eventually(
        () => problems(page),
        (messages) => !naming("reaming-overshoot")(messages),
        "the finding stays",
      );
      const changed = (await saved(page, onDisk, (now) => now !== text, "the fix is not saved"))
        .split("\n")
        .filter((each, index) => each !== text.split("\n")[index]);
      hold(changed.length === 1 && /^ {4}ream 8\.5 mm/.test(changed[0] ?? ""), `changed: ${changed.join(" | ")}`);
      await picture("fixed");
      await goTo(page, onDisk(), "ream 8.5 mm");
      await page.keyboard.press("Control+Z");
      await eventually(() => problems(page), naming("reaming-overshoot"), "the finding does not come back");
      await saved(page, onDisk, (now) => now === text, "undo did not bring the text back");
    },
  },
  {
    name: "a fix is looked at before it is taken, and the status item tells that the server runs",
    file: mistakes,
    run: async ({ page, name, text, onDisk, picture }) => {
      await openFile(page, name);
      await ready(page, text);
      const counted = await problemsFound(page);
      await goTo(page, text, "ream 8.5 mm to 12.5 mm by 0.5 mm", 7);
      hold((await offers(page)).length > 0, "nothing is offered");
      await page.keyboard.press("Control+Enter");
      const preview = page.locator(".bulk-edit-panel .monaco-list-row");
      await eventually(
        () => preview.allInnerTexts(),
        (rows) => rows.some((row) => row.includes("ream 8.5 mm to")),
        "the change is not shown beforehand",
      );
      await picture("preview");
      hold(onDisk() === text, "the fix is written before it is taken");
      await page.waitForTimeout(1000);
      hold((await problemCounts(page)).join() === counted.join(), "the text that is looked at is judged too");
      await command(page, "Focus Active Editor Group");
      const status = page.locator('[id="status.languageStatus"]');
      await status.first().click();
      const told = page.locator(".hover-language-status");
      await eventually(
        () => told.allInnerTexts(),
        (texts) => /Isthmus.*not a medical device.*Restart/s.test(texts.join("\n")),
        "the status item does not tell of the server",
      );
      await picture("status");
    },
  },
  {
    name: "hints stand behind the lines they belong to and go when they are turned off",
    file: sound,
    run: async ({ page, name, text, folder, picture }) => {
      const hinted = (): Promise<number> => linesWithHints(page, text);
      await openFile(page, name);
      await goTo(page, text, "lock D2");
      await eventually(hinted, (count) => count >= 3, "too few lines with hints");
      await picture("hints");
      mkdirSync(`${folder}/.vscode`);
      writeFileSync(`${folder}/.vscode/settings.json`, '{ "isthmus.inlayHints.enabled": false }');
      await eventually(hinted, (count) => count === 0, "hints stay");
      writeFileSync(`${folder}/.vscode/settings.json`, "{}");
      await eventually(hinted, (count) => count >= 3, "hints do not come back");
    },
  },
  {
    name: "a badly laid out plan is laid out, twice the same",
    file: sound,
    write: (text) => text.replaceAll(/^ {4}/gm, "\t  ").replaceAll(" mm", "mm").replaceAll(", ", ",   "),
    run: async ({ page, name, text, onDisk, picture }) => {
      await openFile(page, name);
      await ready(page, text);
      await picture("badly-laid-out");
      await command(page, "Format Document");
      await page.locator(".tab.active.dirty").waitFor();
      const once = await saved(page, onDisk, (now) => now !== text, "the layout is not saved");
      hold(withoutBlanks(once) === withoutBlanks(text), "laying out changed more than blanks");
      hold(once.includes("    ream 8.5 mm to 11 mm by 0.5 mm\n"), "the layout is not the canonical one");
      await command(page, "Format Document");
      await page.waitForTimeout(500);
      await save(page);
      await page.waitForTimeout(500);
      hold(onDisk() === once, "laying out again changed it again");
      await picture("laid-out");
    },
  },
  {
    name: "while typing: words are offered, a half-written line is marked, notes and lists go on",
    file: sound,
    run: async ({ page, name, text, onDisk, picture }) => {
      await openFile(page, name);
      await ready(page, text);
      await eventually(
        () => typeNote(page, text),
        (went) => went,
        "the note did not go on",
      );
      await page.keyboard.press("Enter");
      for (const _ of "## ") await page.keyboard.press("Backspace");
      await page.keyboard.type("st", { delay: 50 });
      // The list shuts when the editor's keys arrive more slowly than it likes; then it is asked for.
      await eventually(
        async () => {
          if ((await offered(page, "step")) === 0) await page.keyboard.press("Control+Space");
          await page.waitForTimeout(500);
          return offered(page, "step");
        },
        (count) => count > 0,
        "no word is offered",
      );
      await picture("completion");
      await page.keyboard.press("Escape");
      await eventually(() => problems(page), naming("unknown-word"), "a half-typed word is not marked");
      await command(page, "Focus Active Editor Group");
      await page.keyboard.press("Control+Shift+K");
      await eventually(
        () => problems(page),
        (messages) => !naming("unknown-word")(messages),
        "the mark stays",
      );
      const noted = (now: string): boolean => now.includes("\n    ## A note\n    ## goes on\n");
      await saved(page, onDisk, noted, "the note did not go on");
    },
  },
  {
    name: "a change of the catalogue on the disk reaches the open plan",
    file: sound,
    run: async ({ page, name, text, folder, picture }) => {
      const catalogue = `${folder}/catalogue/tarnbeck.isthmus`;
      await openFile(page, name);
      await ready(page, text);
      hold((await problems(page)).length === 0, "problems before the change");
      const changed = readFileSync(catalogue, "utf8").replace(/^ {4}diameters .*$/m, "    diameters 8 mm, 9 mm");
      await eventually(
        () => {
          // Written again until the editor has begun to watch the folder, which it does not wait for itself.
          writeFileSync(catalogue, changed);
          return problems(page);
        },
        naming("nail-unlisted"),
        "the change is not seen",
      );
      await picture("catalogue-changed");
    },
  },
  {
    name: "after its server is killed the findings come back by themselves",
    file: mistakes,
    run: async ({ page, name, text, state, picture }) => {
      await openFile(page, name);
      const before = await eventually(() => problems(page), naming("reaming-overshoot"), "no finding");
      const pid = await endServer(state);
      await eventually(
        async () => serversUnder(state),
        ([next]) => next !== undefined && next !== pid,
        "no new server",
      );
      await goTo(page, text, "ream 8.5 mm");
      await eventually(
        () => problems(page),
        (now) => now.join() === before.join(),
        "not the same findings",
      );
      await picture("after-kill");
    },
  },
  {
    name: "a server that ends again and again stays stopped, and no number or finding of its stays on the screen",
    file: mistakes,
    run: async ({ page, name, text, state, picture }) => {
      await openFile(page, name);
      await goTo(page, text, "lock D2");
      await eventually(
        () => linesWithHints(page, text),
        (count) => count >= 3,
        "too few lines with hints",
      );
      await eventually(() => problems(page), naming("reaming-overshoot"), "no finding");
      for (let falls = 0; falls < mostFalls; falls += 1) {
        const pid = await endServer(state);
        await eventually(
          async () => serversUnder(state),
          (all) => all[0] !== pid,
          "the server does not end",
        );
      }
      await eventually(
        () => linesWithHints(page, text),
        (count) => count === 0,
        "numbers of a stopped server stay",
      );
      await eventually(
        () => problems(page),
        (all) => all.length === 0,
        "findings of a stopped server stay",
      );
      await command(page, "Notifications: Show Notifications");
      await picture("stopped");
      await eventually(
        () => page.locator(".notification-list-item-message").allInnerTexts(),
        (all) => all.some((each) => each.includes("stays stopped: nothing is checked")),
        "nobody is told",
      );
      hold(serversUnder(state).length === 0, "a server was started once more");
      await command(page, "Isthmus: Restart the Language Server");
      await eventually(() => problems(page), naming("reaming-overshoot"), "no finding after a restart");
    },
  },
  {
    name: "in Restricted Mode a plan is checked all the same",
    file: mistakes,
    workbench: "restricted",
    run: async ({ page, name, text, picture }) => {
      await openFile(page, name);
      await page.locator(".statusbar-item").filter({ hasText: "Restricted Mode" }).waitFor();
      await goTo(page, text, "ream 8.5 mm");
      await eventually(() => problems(page), naming("reaming-overshoot"), "no finding");
      await ready(page, text);
      await picture("restricted");
    },
  },
  {
    name: "New File… offers plan, catalogue and protocol, and a new plan opens as a frame to fill in",
    file: sound,
    run: async ({ page, picture }) => {
      const entries = page.locator(".quick-input-list .monaco-list-row");
      await eventually(
        async () => {
          // A workbench that has only just opened does not know its entries yet.
          await command(page, "Create: New File...");
          await page.waitForTimeout(1000);
          return entries.allInnerTexts();
        },
        (rows) =>
          ["Plan", "Catalogue", "Protocol"].every((kind) => rows.some((row) => row.includes(`Isthmus ${kind}`))),
        "no entries for new files",
      );
      await picture("new-file");
      await entries.filter({ hasText: "Isthmus Plan" }).first().click();
      await eventually(
        () => shownLines(page),
        (lines) => lines.some((each) => each.includes("What is planned")),
        "no frame",
      );
      await eventually(() => problems(page), naming("missing"), "what is missing is not named");
      await picture("new-plan");
    },
  },
  {
    name: "a landmark is renamed wherever it is said, with F2",
    file: sound,
    run: async ({ page, name, text, onDisk, picture }) => {
      await openFile(page, name);
      await ready(page, text);
      await goTo(page, text, "landmark tubercle", 10);
      await page.keyboard.press("F2");
      // It is shown before it takes the keys; the name in it is then selected.
      await page.locator(".rename-box input:focus").first().waitFor();
      await page.keyboard.type("tuberosity", { delay: 20 });
      await picture("rename");
      await page.keyboard.press("Enter");
      await eventually(
        () => shownLines(page),
        (lines) => lines.some((each) => each.includes("landmark tuberosity")),
        "the name is not changed",
      );
      const renamed = (now: string): boolean => !now.includes("tubercle") && now.includes("landmark tuberosity");
      const now = await saved(page, onDisk, renamed, "the name is not changed everywhere");
      hold(now === text.replaceAll("tubercle", "tuberosity"), "something else was changed too");
    },
    write: (text) =>
      text.replace(
        /^ {4}landmark plafond.*$/m,
        "$&\n    landmark tubercle 30 mm on ap\n    let below = tubercle + 10 mm\n    landmark second below + tubercle",
      ),
  },
  {
    name: "the problems of a plan that was never opened are listed, and the lens over an open one counts its findings",
    file: sound,
    alone: false,
    run: async ({ page, name, text, picture }) => {
      await openFile(page, name);
      await ready(page, text);
      await eventually(() => problems(page), naming("reaming-overshoot"), "the other plan's problems are not listed");
      await openFile(page, "typical-mistakes.isthmus");
      const lens = page.locator(".codelens-decoration").first();
      await eventually(
        () => lens.allInnerTexts(),
        ([words]) => /\d+ error/.test(words ?? ""),
        "no lens",
      );
      await picture("whole-folder");
    },
  },
  {
    name: "the task checks the folder, and what it prints becomes problems",
    file: mistakes,
    run: async ({ page, name, text, picture }) => {
      await openFile(page, name);
      await ready(page, text);
      const before = await problemsFound(page);
      const row = page.locator(".quick-input-list .monaco-list-row").filter({ hasText: "Isthmus: check all plans" });
      await eventually(
        async () => {
          await command(page, "Tasks: Run Build Task");
          await page.waitForTimeout(3000);
          return row.count();
        },
        (count) => count > 0,
        "the task is not offered",
      );
      await page.keyboard.press("Enter");
      await page.locator(".terminal").first().waitFor();
      // What the task finds stands beside what the server has found.
      await eventually(
        () => problemCounts(page),
        (counts) => counts.join() === before.map((count) => 2 * count).join(),
        `not each problem a second time, of ${before.join()}`,
      );
      await picture("task");
    },
  },
  {
    name: "a plan is shown as printed and at a revision, to be read and not judged",
    file: sound,
    run: async ({ page, name, text, folder, picture }) => {
      for (const words of [
        ["init", "-q"],
        ["add", "."],
        ["commit", "-q", "-m", "As first written"],
      ])
        execFileSync("git", ["-c", "user.name=Nobody", "-c", "user.email=nobody@example.org", ...words], {
          cwd: folder,
        });
      const shows = (part: string): Promise<unknown> =>
        eventually(
          () => shownLines(page),
          (lines) => lines.some((each) => each.includes(part)),
          `"${part}" is not shown`,
        );
      const tab = (title: RegExp): Promise<void> => page.locator(".tab.active").filter({ hasText: title }).waitFor();
      await openFile(page, name);
      await ready(page, text);
      await command(page, "Isthmus: Show as Printed");
      await tab(/^simple-shaft \(printed\)\.isthmus/);
      await shows("Planning and teaching aid.");
      const underHead = "\n".repeat(6) + text;
      await goTo(page, underHead, "ream 8.5 mm");
      await shows("# → 1 mm over the nail");
      await page.keyboard.type("x");
      hold(!(await shownLines(page)).some((each) => each.includes("xream")), "it can be typed into");
      await picture("printed");
      await command(page, "View: Open Previous Editor");
      await page.locator(".tab.active").filter({ hasText: name }).waitFor();
      await command(page, "Isthmus: Show at a Revision");
      const row = page.locator(".quick-input-list .monaco-list-row").filter({ hasText: "As first written" });
      await row.first().waitFor();
      await picture("revisions");
      await page.keyboard.press("Enter");
      await tab(/^simple-shaft \(at [0-9a-f]{7,}\)\.isthmus/);
      await shows('plan "Transverse fracture');
      hold((await problems(page)).length === 0, "what was made for reading is judged");
    },
  },
  {
    name: "the walkthrough opens with the cautions and opens the samples",
    file: sound,
    run: async ({ page, picture }) => {
      await command(page, "Welcome: Open Walkthrough...");
      const row = page.locator(".quick-input-list .monaco-list-row").filter({ hasText: "Write an operative plan" });
      await row.first().waitFor();
      await row.first().click();
      const steps = page.locator(".getting-started-step");
      await steps.filter({ hasText: "Not a medical device" }).first().waitFor();
      await picture("walkthrough");
      await steps.filter({ hasText: "Read a plan" }).first().click();
      await page
        .locator(".getting-started-step .button-container")
        .filter({ hasText: "Open the Samples" })
        .first()
        .click();
      await page.locator(".tab.active").filter({ hasText: "simple-shaft.isthmus" }).waitFor();
      await eventually(
        () => shownLines(page),
        (lines) => lines.some((each) => /magnification|1\.12/.test(each)),
        "the copy of the samples is not reckoned",
      );
      await picture("walkthrough-sample");
    },
  },
  {
    name: "a new catalogue and a new protocol open as frames to fill in",
    file: sound,
    run: async ({ page, picture }) => {
      for (const kind of ["catalogue", "protocol"]) {
        await command(page, `Isthmus: New ${kind === "catalogue" ? "Catalogue" : "Protocol"}`);
        await eventually(
          () => shownLines(page),
          (lines) => lines.some((each) => each.startsWith(`${kind} "`)),
          `no ${kind}`,
        );
        await picture(`new-${kind}`);
      }
    },
  },
  {
    name: "in high contrast the findings and the cautions are there too",
    file: mistakes,
    run: async ({ page, name, text, folder, picture }) => {
      mkdirSync(`${folder}/.vscode`);
      writeFileSync(`${folder}/.vscode/settings.json`, '{ "workbench.colorTheme": "Default High Contrast" }');
      await openFile(page, name);
      await page.locator(".monaco-workbench.hc-black").waitFor();
      await eventually(() => problems(page), naming("reaming-overshoot"), "no finding");
      await goTo(page, text, "ream 8.5 mm", 7);
      await hover(page, (read) => /larger than the nail/.test(read), "the hover does not tell the finding");
      await picture("high-contrast");
    },
  },
  {
    name: "without a server of its own beside it, a browser checks a plan in a worker, its catalogue read through the editor",
    file: mistakes,
    workbench: "browser",
    run: async ({ page, name, text, state, folder, picture }) => {
      await openFile(page, name);
      await goTo(page, text, "ream 8.5 mm", 7);
      await eventually(() => problems(page), naming("reaming-overshoot"), "no finding");
      hold(!naming("file-missing")(await problems(page)), "the catalogue was not read");
      await goTo(page, text, "ream 8.5 mm", 7);
      await hover(page, tellsReckoning, "the hover tells no reckoning");
      hold(serversUnder(state).length === 0, "a server process runs");
      await picture("in-browser");
      const catalogue = `${folder}/catalogue/tarnbeck.isthmus`;
      writeFileSync(
        catalogue,
        readFileSync(catalogue, "utf8").replace(/^ {4}diameters .*$/m, "    diameters 8 mm, 9 mm"),
      );
      await eventually(() => problems(page), naming("nail-unlisted"), "a change of the catalogue is not seen");
    },
  },
  {
    name: "in a browser too the problems of a plan that was never opened are listed",
    file: sound,
    alone: false,
    workbench: "browser",
    run: async ({ page, name, text, state }) => {
      await openFile(page, name);
      await ready(page, text);
      await eventually(() => problems(page), naming("reaming-overshoot"), "the other plan's problems are not listed");
      hold(serversUnder(state).length === 0, "a server process runs");
    },
  },
];

/**
 * Types a note of two lines before a statement, from the text as it was opened, and tells whether the second line became a note. The
 * editor learns a language's typing habits some time after it has opened the file.
 */
async function typeNote(page: Page, text: string): Promise<boolean> {
  await command(page, "File: Revert File");
  await goTo(page, text, "\n    wire ball-tip");
  await page.keyboard.press("Enter");
  await page.keyboard.type("## A note");
  await page.keyboard.press("Enter");
  await page.keyboard.type("goes on");
  return (await shownLines(page)).includes("    ## goes on");
}

function offered(page: Page, word: string): Promise<number> {
  return page.locator(".suggest-widget.visible .monaco-list-row").filter({ hasText: word }).count();
}

/** Errors, warnings and, where there are any, remarks of the whole workbench, as the status bar counts them. */
async function problemCounts(page: Page): Promise<readonly number[]> {
  const [shown = ""] = await page.locator('[id="status.problems"]').allInnerTexts();
  return (shown.match(/\d+/g) ?? []).map(Number);
}

/** Saves; gives the file once it is as it must become. */
async function saved(
  page: Page,
  onDisk: () => string,
  taken: (text: string) => boolean,
  what: string,
): Promise<string> {
  await save(page);
  return eventually(async () => onDisk(), taken, what);
}

/** Kills the one server there is; that of the scenario before goes with its visitor. */
async function endServer(state: string): Promise<number | undefined> {
  const [pid] = await eventually(
    async () => serversUnder(state),
    (all) => all.length === 1,
    "not one server process",
  );
  if (pid !== undefined) process.kill(pid, "SIGKILL");
  return pid;
}

/** Processes that run the language server of the extension installed under a folder. */
function serversUnder(state: string): readonly number[] {
  return readdirSync("/proc")
    .filter((each) => /^\d+$/.test(each) && commandLine(each).includes(`${state}/`))
    .filter((each) => /language-server\.js\0--stdio/.test(commandLine(each)))
    .map(Number);
}

function commandLine(pid: string): string {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, "utf8");
  } catch {
    return "";
  }
}
