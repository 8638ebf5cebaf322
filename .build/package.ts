/**
 * Packs the VS Code extension: a folder with the listed files and nothing else, and from it dist/isthmus.vsix or the file
 * that is named. The bundles must have been made before. The same sources give the same bytes.
 */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import manifest from "../package.json" with { type: "json" };
import { noticesOf } from "./package-notices.ts";

const root = fileURLToPath(new URL("..", import.meta.url));
/** A folder of its own, so that two packings at once do not meet. */
const staged = `${mkdtempSync(join(tmpdir(), "isthmus-package-"))}/`;

const inBrowser = ["dist/extension.browser.js", "dist/language-server.browser.js"] as const;
/** Without the desktop's entry, for the test that shows that the browser's needs nothing of it. */
const browserAlone = process.argv.includes("--browser-alone");
const onDesktop = ["dist/extension.js", "dist/isthmus.js", "dist/language-server.js"] as const;
const bundles = browserAlone ? inBrowser : ([...onDesktop, ...inBrowser] as const);

/** The manifest's words by language, which VS Code looks for beside the manifest. */
const manifestWords = ["package.nls.json", "package.nls.de.json"] as const;

/** Files and folders of the tree that go into the package, as they are. */
const taken = [
  "CHANGELOG.md",
  "LICENSE",
  "README.md",
  "client/images",
  "client/l10n/bundle.l10n.de.json",
  "client/walkthrough",
  ...bundles,
  "grammar/isthmus.tmLanguage.json",
  "grammar/language-configuration.json",
  "grammar/markdown-fence.tmLanguage.json",
  "samples",
  "server/findings/FINDINGS.md",
] as const;

/** What VS Code reads of package.json; scripts, tools and the module type of the sources stay out. */
const manifestKeys = [
  "name",
  "displayName",
  "version",
  "description",
  "license",
  "publisher",
  "icon",
  "categories",
  "keywords",
  "engines",
  "main",
  "browser",
  "l10n",
  "activationEvents",
  "capabilities",
  "contributes",
] as const satisfies readonly (keyof typeof manifest)[];

/** Stands as the time of every file in the package, so that two packings are equal: 2026-01-01. */
const fixedTime = "1767225600";

try {
  stage();
  pack(resolve(process.argv.slice(2).find((each) => !each.startsWith("--")) ?? `${root}dist/isthmus.vsix`));
} finally {
  rmSync(staged, { recursive: true });
}

function stage(): void {
  for (const path of taken) {
    mkdirSync(dirname(`${staged}${path}`), { recursive: true });
    cpSync(`${root}${path}`, `${staged}${path}`, { recursive: true });
  }
  for (const name of manifestWords) cpSync(`${root}client/l10n/${name}`, `${staged}${name}`);
  const keys = manifestKeys.filter((key) => key !== "main" || !browserAlone);
  const kept = Object.fromEntries(keys.map((key) => [key, manifest[key]]));
  writeFileSync(`${staged}package.json`, `${JSON.stringify(kept, undefined, 2)}\n`);
  writeFileSync(`${staged}THIRD-PARTY-NOTICES.txt`, noticesOf(root, Object.keys(manifest.dependencies)));
}

function pack(out: string): void {
  const run = spawnSync(
    process.execPath,
    [
      fileURLToPath(import.meta.resolve("@vscode/vsce/vsce")),
      "package",
      "--no-dependencies",
      "--allow-missing-repository",
      "--no-rewrite-relative-links",
      "--out",
      out,
    ],
    {
      cwd: staged,
      encoding: "utf8",
      env: { ...process.env, SOURCE_DATE_EPOCH: fixedTime, TZ: "UTC", VSCE_STORE: "file" },
    },
  );
  if (run.status !== 0) throw new Error(`Packing failed.\n${run.stdout}${run.stderr}`);
}
