/**
 * Looks into the packed extension: exactly the listed files, small, the same twice, with the cautions where they belong and without
 * anything that could reach the network.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { hasHidden } from "../../grammar/characters.ts";
import { caution } from "../../server/answers/caution.ts";
import { unzip } from "./zip.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

let files: ReadonlyMap<string, Buffer> = new Map();
let bytes: Buffer = Buffer.alloc(0);

beforeAll(() => {
  bytes = packed();
  files = unzip(bytes);
}, 60_000);

function packed(): Buffer {
  const folder = mkdtempSync(join(tmpdir(), "isthmus-packed-"));
  try {
    const out = join(folder, "isthmus.vsix");
    const run = spawnSync(process.execPath, [`${root}.build/package.ts`, out], { encoding: "utf8" });
    if (run.status !== 0) throw new Error(`${run.stdout}${run.stderr}`);
    return readFileSync(out);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** What the packed command line prints of a sample. */
function checkOf(sample: string): string {
  const run = spawnSync(process.execPath, [`${root}dist/isthmus.js`, "check", `${root}samples/${sample}`], {
    encoding: "utf8",
  });
  return run.stdout;
}

function text(path: string): string {
  const content = files.get(`extension/${path}`);
  if (content === undefined) throw new Error(`The package has no ${path}`);
  return content.toString("utf8");
}

interface Manifest {
  readonly main: string;
  readonly icon: string;
  readonly contributes: {
    readonly walkthroughs: readonly {
      readonly description: string;
      readonly steps: readonly { readonly description: string }[];
    }[];
    readonly commands: readonly { readonly command: string; readonly shortTitle?: string }[];
    readonly menus: { readonly "file/newFile": readonly { readonly command: string }[] };
    readonly problemMatchers: readonly { readonly pattern: readonly { readonly regexp: string }[] }[];
    readonly configuration: { readonly properties: Readonly<Record<string, unknown>> };
  };
}

/** With its words in English, or in another language. */
function manifest(language = ""): Manifest {
  const words: Readonly<Record<string, string>> = JSON.parse(text(`package.nls${language}.json`));
  const word = (key: string): string => JSON.stringify(words[key] ?? `no word for ${key}`).slice(1, -1);
  return JSON.parse(text("package.json").replaceAll(/%([\w.]+)%/g, (_whole, key: string) => word(key)));
}

test("holds the listed files and no other", () => {
  const samples = readdirSync(`${root}samples`, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => `extension/${entry.parentPath.slice(root.length)}/${entry.name}`.replaceAll("//", "/"));
  expect([...files.keys()].sort()).toEqual(
    [
      "[Content_Types].xml",
      "extension.vsixmanifest",
      "extension/LICENSE.txt",
      "extension/THIRD-PARTY-NOTICES.txt",
      "extension/changelog.md",
      "extension/client/images/editor.png",
      "extension/client/images/file-dark.svg",
      "extension/client/images/file-light.svg",
      "extension/client/images/icon.png",
      "extension/client/l10n/bundle.l10n.de.json",
      "extension/client/walkthrough/caution.md",
      "extension/client/walkthrough/findings.md",
      "extension/client/walkthrough/readings.md",
      "extension/dist/extension.browser.js",
      "extension/dist/extension.js",
      "extension/dist/isthmus.js",
      "extension/dist/language-server.browser.js",
      "extension/dist/language-server.js",
      "extension/grammar/isthmus.tmLanguage.json",
      "extension/grammar/language-configuration.json",
      "extension/grammar/markdown-fence.tmLanguage.json",
      "extension/package.json",
      "extension/package.nls.de.json",
      "extension/package.nls.json",
      "extension/readme.md",
      "extension/server/findings/FINDINGS.md",
      ...samples,
    ].sort(),
  );
});

test("is small", () => {
  expect(bytes.length).toBeLessThan(1_500_000);
});

test("packed twice is the same to the byte", () => {
  expect(packed().equals(bytes)).toBe(true);
});

test("every file that the manifest names is there", () => {
  const named = [...JSON.stringify(manifest()).matchAll(/"(?:\.\/)?((?:client|dist|grammar)\/[^"]+)"/g)];
  expect(named.length).toBeGreaterThan(8);
  const packed = [...files.keys()];
  const missing = named.filter(([, path]) => !packed.some((file) => `${file}/`.startsWith(`extension/${path}/`)));
  expect(missing.map(([, path]) => path)).toEqual([]);
});

test("New File… offers a plan, a catalogue and a protocol", () => {
  const { commands, menus } = manifest().contributes;
  const offered = menus["file/newFile"].map(({ command }) => commands.find((each) => each.command === command));
  expect(offered.map((each) => each?.shortTitle)).toEqual(["Isthmus Plan", "Isthmus Catalogue", "Isthmus Protocol"]);
});

test("the manifest holds nothing of how it was made", () => {
  for (const key of ["scripts", "devDependencies", "dependencies", "type", "bin", "allowScripts"]) {
    expect(manifest()).not.toHaveProperty(key);
  }
});

describe("cautions", () => {
  test("the read-me has them whole", () => {
    expect(text("readme.md").replaceAll(/[\s>*]+/g, " ")).toContain(caution);
  });

  test("the walkthrough opens with them, on its list and on its first page", () => {
    const [walkthrough] = manifest().contributes.walkthroughs;
    expect(walkthrough?.steps[0]?.description).toBe(caution);
    expect(caution.startsWith(walkthrough?.description ?? "none")).toBe(true);
    expect(text("client/walkthrough/caution.md")).toContain(caution);
  });

  test("the status of the running server says what it is not", () => {
    expect(text("dist/extension.js")).toContain("Planning and teaching aid, not a medical device");
  });

  test("no setting is about them, and there are fewer than twenty", () => {
    const settings = Object.keys(manifest().contributes.configuration.properties);
    expect(settings.length).toBeLessThan(20);
    expect(settings.filter((name) => !/^isthmus\.(inlayHints\.[a-z]+|trace\.server)$/.test(name))).toEqual([]);
  });

  test("nothing shown calls a plan safe or unsafe", () => {
    for (const path of ["package.json", "client/walkthrough/findings.md", "client/walkthrough/readings.md"]) {
      expect(text(path)).not.toMatch(/\b(un)?safe\b/i);
    }
  });
});

describe("languages", () => {
  const words = (file: string): Readonly<Record<string, string>> =>
    JSON.parse(readFileSync(`${root}client/l10n/${file}`, "utf8"));

  test("German has every word of the manifest, and no word is empty or left in English", () => {
    const [english, german] = [words("package.nls.json"), words("package.nls.de.json")];
    expect(Object.keys(german)).toEqual(Object.keys(english));
    expect(Object.keys(english).filter((key) => german[key] === english[key] || german[key] === "")).toEqual([]);
  });

  test("every word the manifest asks for is there, and none is there for nothing", () => {
    const asked = [...text("package.json").matchAll(/"%([\w.]+)%"/g)].map(([, key]) => key ?? "");
    expect(asked.length).toBeGreaterThan(20);
    expect([...new Set(asked)].sort()).toEqual(Object.keys(words("package.nls.json")).sort());
  });

  test("German has every sentence the client says, and none besides", () => {
    const sources = readdirSync(`${root}client`).filter((name) => name.endsWith(".ts"));
    const said = sources.flatMap((name) => {
      const source = readFileSync(`${root}client/${name}`, "utf8");
      return [...source.matchAll(/l10n\.t\(\s*"([^"]+)"/g)].map(([, sentence]) => sentence ?? "");
    });
    expect(said.length).toBeGreaterThan(5);
    expect(Object.keys(words("bundle.l10n.de.json")).sort()).toEqual([...new Set(said)].sort());
  });

  test("the cautions stand in German where they stand in English", () => {
    const german = manifest(".de");
    expect(german.contributes.walkthroughs[0]?.steps[0]?.description).toContain("Kein Medizinprodukt");
    expect(german.contributes.walkthroughs[0]?.description).toContain("Kein Medizinprodukt");
  });
});

describe("the task's problems", () => {
  test("are read from what the command line prints", () => {
    const [matcher] = manifest().contributes.problemMatchers;
    const printed = checkOf("plans/typical-mistakes.isthmus").split("\n");
    const [first, second] = matcher?.pattern.map(({ regexp }) => new RegExp(regexp)) ?? [];
    const read = printed.flatMap((line, index) => {
      const head = first?.exec(line);
      const message = second?.exec(printed[index + 1] ?? "");
      return head && message ? [[head[1], head[4], head[5], message[1]] as const] : [];
    });
    const slugs = read.map(([, , slug]) => slug);
    expect(slugs).toContain("reaming-overshoot");
    expect(slugs).toHaveLength(
      printed.filter((line) => /^ += fix|^\S.*:\d+:\d+ /.test(line) && !line.startsWith(" ")).length,
    );
    expect(read.every(([file]) => file?.endsWith("typical-mistakes.isthmus"))).toBe(true);
    expect(read.find(([, , slug]) => slug === "reaming-overshoot")?.[3]).toMatch(/larger than the nail/);
  });
});

describe("no way out", () => {
  test.each([
    "dist/extension.js",
    "dist/language-server.js",
    "dist/extension.browser.js",
    "dist/language-server.browser.js",
  ])("%s has no means to ask another host", (path) => {
    const modules = [...text(path).matchAll(/require\("([^"]+)"\)/g)].map(([, name = ""]) =>
      name.replace(/^node:/, ""),
    );
    // In a worker there is nothing to require; on the desktop there is, or this test would look at nothing.
    expect(modules.length > 0).toBe(path !== "dist/language-server.browser.js");
    const networked = ["http", "https", "http2", "dns", "tls", "dgram", "undici", "inspector", "worker_threads"];
    expect(modules.filter((name) => networked.includes(name))).toEqual([]);
    expect(text(path)).not.toMatch(
      /\bfetch\(|XMLHttpRequest|WebSocket\(|sendTelemetry|createTelemetryLogger|importScripts/,
    );
  });
});

test("no text in the package hides a character", () => {
  for (const [path, content] of files) {
    if (path.endsWith(".png")) continue;
    expect(hasHidden(content.toString("utf8")), path).toBe(false);
  }
});

test("the notices name every bundled package with its licence", () => {
  const notices = text("THIRD-PARTY-NOTICES.txt");
  for (const name of ["chevrotain", "vscode-languageclient", "vscode-languageserver", "vscode-jsonrpc", "semver"]) {
    expect(notices).toMatch(new RegExp(`^${name} \\d+\\.\\d+\\.\\d+ \\(\\S+\\)$`, "m"));
  }
  expect(notices).toContain("Permission is hereby granted");
});
