/** Holds the table of features to what the server announces and to the tests: no row without a capability and a test, none missing. */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, expect, test } from "vitest";
import { ProtocolClient } from "./client.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const page = readFileSync(`${root}/server/language-server/FEATURES.md`, "utf8");

const cells = page
  .split("\n")
  .filter((line) => line.startsWith("| `"))
  .map((line) => line.split(/(?<!\\)\|/).map((cell) => cell.trim().replace(/^`([^`]*)`$/, "$1")));
const announcedRows = cells
  .filter((row) => row.length === 6)
  .map(([, method = "", by = "", , test = ""]) => ({ method, by, test }));
const askedRows = cells.filter((row) => row.length === 5).map(([, method = "", , test = ""]) => ({ method, test }));

/** A client that can do all that an answer hangs on. */
const able = {
  textDocument: { diagnostic: {} },
  workspace: { textDocumentContent: {} },
  window: { showDocument: { support: true } },
};

const client = new ProtocolClient();
afterAll(() => client.kill());
const { capabilities } = await client.initialize(able, pathToFileURL(`${root}/samples`).href);

/** How a capability is used rather than that there is one. */
const manners = new Set(["workDoneProgress", "interFileDependencies", "openClose", "supported"]);

/** Inside `workspace`. */
const features = new Set(["willRename", "textDocumentContent"]);

/** Top-level capabilities, and whatever is said yes to inside them. */
function announced(of: Readonly<Record<string, unknown>>, path = ""): string[] {
  return Object.entries(of).flatMap(([name, value]) => {
    const here = path === "" ? name : `${path}.${name}`;
    if (manners.has(name) || name === "positionEncoding") return [];
    if (typeof value === "object" && value !== null && !Array.isArray(value)) {
      const inner = announced(value as Record<string, unknown>, here);
      const isFeature = path === "" ? name !== "workspace" : features.has(name);
      return isFeature ? [here, ...inner] : inner;
    }
    return value === true || (path === "" && value !== false) ? [here] : [];
  });
}

test("every capability has a row, and every row a capability", () => {
  const said = announced(capabilities);
  expect(said.length).toBeGreaterThan(25);
  expect([...new Set(announcedRows.map(({ by }) => by))].sort()).toEqual([...new Set(said)].sort());
});

test("every method has one row, and a test file that speaks it", () => {
  const methods = [...announcedRows, ...askedRows].map(({ method }) => method);
  expect(new Set(methods).size).toBe(methods.length);
  for (const { method, test: file } of [...announcedRows, ...askedRows]) {
    expect(existsSync(`${root}/${file}`), file).toBe(true);
    const text = readFileSync(`${root}/${file}`, "utf8");
    if (!file.endsWith("browser.test.ts")) expect(text, `${file} speaks ${method}`).toContain(method);
  }
});

test("the page says nothing of a method that the server does not know", async () => {
  const requests = announcedRows.filter(({ method }) => !method.includes("/did"));
  for (const { method } of requests) {
    const answer = await client.request(method, { textDocument: { uri: "file:///none" }, files: [] }).catch(String);
    expect(String(answer), method).not.toContain("-32601");
  }
});
