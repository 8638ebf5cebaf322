/**
 * The style rules a machine can hold, each with its reason: who may import whom, headers, lengths, banned folders and words. The
 * import table is the law; a row that is not in it is forbidden.
 */
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("..", import.meta.url));
const tracked = execFileSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], { cwd: root })
  .toString()
  .split("\0")
  .filter((file) => file !== "" && existsSync(join(root, file)));
const sources = tracked.filter((file) => /\.(ts|mts|mjs)$/.test(file) && !file.endsWith(".d.ts"));
const product = sources.filter((file) => /^(grammar|server|client)\//.test(file));

/** The layers, lowest first. A folder may always import from itself; "node" stands for Node's built-in modules. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  grammar: ["chevrotain"],
  "server/quantity": [],
  "server/meaning": ["grammar", "server/quantity"],
  "server/reckoning": ["server/meaning", "server/quantity"],
  "server/findings": ["server/reckoning", "server/meaning", "server/quantity", "grammar"],
  "server/answers": [
    ...["server/findings", "server/reckoning", "server/meaning", "server/quantity", "grammar", "package.json"],
  ],
  "server/files": ["node"],
  "server/language-server": [
    ...["server/answers", "server/findings", "server/reckoning", "server/meaning", "server/quantity", "grammar"],
    ...["server/files", "vscode-languageserver", "node"],
  ],
  "server/command-line": [
    ...["server/answers", "server/findings", "server/reckoning", "server/meaning", "server/quantity", "grammar"],
    ...["server/files", "node"],
  ],
  client: ["vscode", "vscode-languageclient", "node"],
};

/** Single imports across the table, each with its reason. */
const exceptions: readonly string[] = [
  // `serve` is the one command that is the language server.
  "server/command-line/serve.ts -> server/language-server",
  // The shapes and names of the requests between client and server stand in one file.
  "client/files.ts -> server/language-server",
  "client/made-documents.ts -> server/language-server",
  "client/options.ts -> server/language-server",
  "client/same-text.ts -> server/language-server",
];

function folderOf(file: string): string {
  const layer = Object.keys(mayImport).find((name) => file.startsWith(`${name}/`));
  return layer ?? (file.includes("/") ? dirname(file) : file);
}

function importsOf(file: string): string[] {
  const text = readFileSync(join(root, file), "utf8");
  const found = text.matchAll(/^(?:import|export)\b[^;"]*?\bfrom "([^"]+)"|^import "([^"]+)"|\bimport\("([^"]+)"\)/gm);
  return [...found].map((match) => match[1] ?? match[2] ?? match[3] ?? "");
}

function targetOf(file: string, specifier: string): string {
  if (specifier.startsWith("node:")) return "node";
  if (specifier.startsWith(".")) return folderOf(relative(root, join(root, dirname(file), specifier)));
  return specifier.split("/")[0] ?? specifier;
}

describe("who may import whom", () => {
  test("every product file is in a folder of the table", () => {
    expect(product.filter((file) => !(folderOf(file) in mayImport))).toEqual([]);
    expect(product.length).toBeGreaterThan(20);
  });

  test("nothing imports what its folder may not", () => {
    const forbidden = product.flatMap((file) => {
      const layer = folderOf(file);
      return importsOf(file)
        .map((specifier) => targetOf(file, specifier))
        .filter((target) => target !== layer && !(mayImport[layer] ?? []).includes(target))
        .filter((target) => !exceptions.includes(`${file} -> ${target}`))
        .map((target) => `${file} imports ${target}`);
    });
    expect(forbidden).toEqual([]);
  });

  test("every exception is still needed", () => {
    const unused = exceptions.filter((exception) => {
      const [file = "", target = ""] = exception.split(" -> ");
      return !importsOf(file).some((specifier) => targetOf(file, specifier) === target);
    });
    expect(unused).toEqual([]);
  });
});

describe("files", () => {
  test("open with a sentence that says what they hold, because a newcomer reads the first lines first", () => {
    const bare = sources.filter((file) => {
      const text = readFileSync(join(root, file), "utf8").replace(/^#!.*\n/, "");
      return !(text.startsWith("/**") || text.startsWith("// "));
    });
    expect(bare).toEqual([]);
  });

  test("stay under 400 lines, tables of tests under 900, because a longer one holds two things", () => {
    const most = (file: string): number => (file.startsWith("tests/") ? 900 : 400);
    const long = sources.filter((file) => readFileSync(join(root, file), "utf8").split("\n").length > most(file) + 1);
    expect(long).toEqual([]);
  });

  test("stand only where the layout has a place for them", () => {
    const top = new Set(tracked.map((file) => file.split("/")[0] ?? ""));
    const named = new Set([
      ...[
        "README.md",
        "DEVELOPERS.md",
        "package.json",
        "tsconfig.json",
        "client",
        "server",
        "grammar",
        "tests",
        "samples",
      ],
      ...["LICENSE", "CHANGELOG.md", "package-lock.json"],
    ]);
    expect([...top].filter((name) => !name.startsWith(".") && !named.has(name))).toEqual([]);
  });

  test("no folder is a drawer for anything", () => {
    expect(tracked.filter((file) => /(^|\/)(src|utils?|helpers?|common|misc|lib)\//.test(file))).toEqual([]);
    expect(sources.filter((file) => /(^|\/)(index|utils?|helpers?|common)\.ts$/.test(file))).toEqual([]);
  });
});

describe("code", () => {
  const forbidden: readonly (readonly [name: string, pattern: RegExp, allowed: RegExp])[] = [
    [
      "numbers are read and printed in one place each",
      /\b(parseFloat|parseInt|Number|toFixed|toLocaleString|toPrecision)\(/,
      /^(grammar\/numbers\.ts|server\/quantity\/)/,
    ],
    ["chance in the product would make two runs differ", /\bMath\.random\(/, /^$/],
    ["the clock in the product would make two runs differ", /\b(Date\.now|new Date)\(/, /^$/],
    ["unfinished work is finished or not begun", /\b(TODO|FIXME|XXX|HACK)\b/, /^$/],
    ["nothing leaves the machine", /\b(fetch|XMLHttpRequest|WebSocket)\(|node:(http|https|net|tls|dgram)"/, /^$/],
    ["a suppressed warning hides the next one", /biome-ignore|@ts-ignore|@ts-expect-error|@ts-nocheck/, /^$/],
  ];
  test.each(forbidden)("%s", (_reason, pattern, allowed) => {
    const found = product.flatMap((file) =>
      allowed.test(file)
        ? []
        : readFileSync(join(root, file), "utf8")
            .split("\n")
            .flatMap((line, at) => (pattern.test(line) ? [`${file}:${at + 1}: ${line.trim()}`] : [])),
    );
    expect(found).toEqual([]);
  });

  test("the tool never calls anything safe or unsafe", () => {
    const found = product.flatMap((file) =>
      [...readFileSync(join(root, file), "utf8").matchAll(/"[^"\n]*\b(un)?safe\b[^"\n]*"/gi)].map(
        (match) => `${file}: ${match[0]}`,
      ),
    );
    expect(found.filter((line) => !line.includes("safe zone"))).toEqual([]);
  });
});

test("the tests run on the Node the package brings", () => {
  expect(process.versions.node.split(".")[0]).toBe("24");
});
