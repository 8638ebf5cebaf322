/**
 * What a person does in the workbench, as functions over the page: open a file, go to a place, read a hover, choose a fix. Places
 * are told by the text that stands there, never by numbers.
 */
import { type Browser, chromium, type Locator, type Page } from "playwright-core";

const chromiumFlags = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  // Whatever asks for another host gets no answer, so that the tests mean the same with and without a network.
  "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
];

export interface Editor {
  readonly page: Page;
  /** Addresses asked for outside this machine. */
  readonly outside: readonly string[];
  readonly close: () => Promise<void>;
}

const lines = ".editor-group-container.active .monaco-editor .view-lines .view-line";

/** Long enough for a busy machine; what holds is seen at once. */
const patience = 60_000;

export function openBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: chromiumFlags });
}

/** Opens the address as a new visitor and waits until the workbench stands. */
export async function openEditor(browser: Browser, url: string): Promise<Editor> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, deviceScaleFactor: 1 });
  page.setDefaultTimeout(patience);
  const outside: string[] = [];
  page.on("request", (request) => {
    if (!/^(http:\/\/127\.0\.0\.1[:/]|data:|blob:)/.test(request.url())) outside.push(request.url());
  });
  await page.goto(url);
  await page.locator(".monaco-workbench .part.statusbar").waitFor();
  return { page, outside, close: () => page.close() };
}

/** Runs a command by its words in the palette, which may open before it knows an extension's commands. */
export async function command(page: Page, words: string): Promise<void> {
  const row = page.locator(".quick-input-list .monaco-list-row").filter({ hasText: words }).first();
  await eventually(
    () => search(page, words, row),
    (found) => found,
    `no command "${words}"`,
  );
  await row.click();
}

async function search(page: Page, words: string, row: Locator): Promise<boolean> {
  await page.keyboard.press("Escape");
  await page.keyboard.press("F1");
  await page.locator(".quick-input-widget input").first().waitFor();
  await page.keyboard.insertText(words);
  await page.waitForTimeout(500);
  return (await row.count()) > 0;
}

export async function openFile(page: Page, name: string): Promise<void> {
  await page.keyboard.press("Control+P");
  await page.locator(".quick-input-widget input").first().waitFor();
  await page.keyboard.insertText(name);
  await page.locator(".quick-input-list .monaco-list-row").filter({ hasText: name }).first().waitFor();
  await page.keyboard.press("Enter");
  await page.locator(".tab.active").filter({ hasText: name }).waitFor();
  await page.locator(lines).first().waitFor();
}

export async function save(page: Page): Promise<void> {
  await page.keyboard.press("Control+S");
  await page.locator(".tab.active.dirty").waitFor({ state: "hidden" });
}

/** Puts the cursor into a text that stands in the document, `into` characters after its beginning. */
export async function goTo(page: Page, text: string, place: string, into = 0): Promise<void> {
  const at = text.indexOf(place);
  if (at < 0) throw new Error(`"${place}" does not stand in the document.`);
  const before = text.slice(0, at + into).split("\n");
  await page.keyboard.press("Control+G");
  await page.locator(".quick-input-widget input").first().waitFor();
  await page.keyboard.insertText(`${before.length}:${(before.at(-1) ?? "").length + 1}`);
  await page.keyboard.press("Enter");
  await page.locator(".quick-input-widget").waitFor({ state: "hidden" });
}

/** Opens the hover at the cursor; its parts come one after another, so it is read until it is taken. */
export async function hover(page: Page, taken: (read: string) => boolean, what: string): Promise<string> {
  await page.keyboard.press("Control+K");
  await page.keyboard.press("Control+I");
  const contents = page.locator(".monaco-editor .monaco-hover:not(.hidden) .hover-contents");
  return eventually(async () => (await contents.allInnerTexts()).join("\n"), taken, what);
}

/** Titles of what the light bulb offers at the cursor. The list stays open: `choose` one or press Escape. */
export async function offers(page: Page): Promise<readonly string[]> {
  const rows = page.locator(".action-widget .monaco-list-row.action");
  return eventually(
    async () => {
      if ((await rows.count()) === 0) await askForOffers(page);
      return rows.allInnerTexts();
    },
    (titles) => titles.length > 0,
    "nothing is offered",
  );
}

/** A hover that has the focus, or is about to go, takes the keys; so the editor gets the focus first. */
async function askForOffers(page: Page): Promise<void> {
  await page.keyboard.press("Escape");
  await command(page, "Focus Active Editor Group");
  await page.keyboard.press("Control+.");
  await page.waitForTimeout(2000);
}

export async function choose(page: Page, title: string | RegExp): Promise<void> {
  await page.locator(".action-widget .monaco-list-row.action").filter({ hasText: title }).first().click();
  await page.locator(".action-widget .monaco-list-row.action").first().waitFor({ state: "hidden" });
}

/** Messages in the list of problems of the open files. */
export async function problems(page: Page): Promise<readonly string[]> {
  const panel = page.locator(".markers-panel");
  if ((await panel.count()) === 0) {
    await page.keyboard.press("Control+Shift+M");
    await panel.waitFor();
  }
  return (await page.locator(".markers-panel .monaco-list-row .marker-message-line").allInnerTexts()).map(plainSpaces);
}

/** The lines in sight, hints within them included. */
export async function shownLines(page: Page): Promise<readonly string[]> {
  return (await page.locator(lines).allInnerTexts()).map(plainSpaces);
}

/** Colours by text of the pieces a line in sight is painted in. */
export async function coloursOf(page: Page, line: string): Promise<ReadonlyMap<string, string>> {
  const pieces = await page
    .locator(lines)
    .filter({ hasText: line })
    .first()
    .locator("span > span")
    .evaluateAll((all) =>
      all.map((each) => [each.textContent ?? "", each.ownerDocument.defaultView.getComputedStyle(each).color] as const),
    );
  return new Map(pieces.map(([text, colour]) => [plainSpaces(text).trim(), colour]));
}

/** Asks until the answer is taken; throws with the last answer when patience ends. */
export async function eventually<T>(ask: () => Promise<T>, taken: (answer: T) => boolean, what: string): Promise<T> {
  const end = Date.now() + patience;
  for (;;) {
    const answer = await ask();
    if (taken(answer)) return answer;
    if (Date.now() > end) throw new Error(`${what}; the last seen was ${JSON.stringify(answer)}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

/** The editor paints spaces as no-break spaces. */
function plainSpaces(text: string): string {
  return text.replaceAll("\u00a0", " ");
}
