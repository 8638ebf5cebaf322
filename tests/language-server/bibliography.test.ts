/** A bibliography that a plan reads: what is told follows the file as it changes, whoever reads it. */
import { cpSync, mkdtempSync, rmSync, unlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterEach, beforeEach, expect, test } from "vitest";
import { CompletionItemKind } from "vscode-languageserver";
import { linesOf } from "../../server/answers/lines.ts";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const samples = fileURLToPath(new URL("../../samples", import.meta.url));
const path = "plans/simple-shaft.isthmus";
const text = sampleText(path).replace(
  "  status for-review\n",
  '  sources "own.bib"\n  summary "As [@one1996]."\n  status for-review\n',
);

/** An answer of a busy machine may be a while in coming. */
const inTime = { timeout: 20_000 };

let client: ProtocolClient | undefined;
let folder = "";
let bibliography = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "isthmus-sources-"));
  cpSync(samples, folder, { recursive: true });
  bibliography = join(folder, "plans/own.bib");
  writeFileSync(bibliography, "@article{one1996,\n}\n");
});
afterEach(() => {
  client?.kill();
  rmSync(folder, { recursive: true, force: true });
});

async function start(): Promise<ProtocolClient> {
  client = new ProtocolClient();
  const workspace = { didChangeWatchedFiles: { dynamicRegistration: true } };
  await client.initialize({ textDocument: { diagnostic: {} }, workspace }, pathToFileURL(folder).href);
  client.open(pathToFileURL(join(folder, path)).href, text);
  return client;
}

async function told(server: ProtocolClient): Promise<readonly (readonly [string, string])[]> {
  const textDocument = { uri: pathToFileURL(join(folder, path)).href };
  const { items } = await server.request<{ items: { code: string; message: string }[] }>("textDocument/diagnostic", {
    textDocument,
  });
  return items
    .filter(({ code }) => code.startsWith("citation-") || code === "file-missing")
    .map(({ code, message }) => [code, message.split("\n")[0] ?? ""]);
}

function changed(server: ProtocolClient, type: 1 | 2 | 3): void {
  const uri = pathToFileURL(bibliography).href;
  server.notify("workspace/didChangeWatchedFiles", { changes: [{ uri, type }] });
}

test("a bibliography that loses a key, goes and comes back is told of in its turn", async () => {
  const server = await start();
  const codes = async (): Promise<readonly string[]> => (await told(server)).map(([code]) => code).sort();
  await expect.poll(codes, inTime).toEqual([]);
  writeFileSync(bibliography, "@article{two1997,\n}\n");
  changed(server, 2);
  await expect.poll(codes, inTime).toEqual(["citation-unknown", "citation-unused"]);
  unlinkSync(bibliography);
  changed(server, 3);
  await expect.poll(codes, inTime).toEqual(["file-missing"]);
  expect(await told(server)).toEqual([["file-missing", expect.stringContaining("own.bib")]]);
  writeFileSync(bibliography, "@article{one1996,\n}\n");
  changed(server, 1);
  await expect.poll(codes, inTime).toEqual([]);
});

test("a key is offered, found wherever it is cited, lights up, and is not renamed from here", async () => {
  const server = await start();
  const at = text.indexOf("@one1996");
  const position = linesOf(text).position(at + 3);
  const asked = { textDocument: { uri: pathToFileURL(join(folder, path)).href }, position };
  const offers = await server.request<{ label: string; kind: number }[]>("textDocument/completion", asked);
  expect(offers.map(({ label, kind }) => [label, kind])).toEqual([["one1996", CompletionItemKind.Reference]]);
  const references = (includeDeclaration: boolean) =>
    server.request<{ uri: string }[]>("textDocument/references", { ...asked, context: { includeDeclaration } });
  const entry = pathToFileURL(bibliography).href;
  expect((await references(true)).map(({ uri }) => uri)).toEqual([entry, asked.textDocument.uri]);
  expect((await references(false)).map(({ uri }) => uri)).toEqual([asked.textDocument.uri]);
  expect(await server.request("textDocument/documentHighlight", asked)).toHaveLength(1);
  await expect(server.request("textDocument/prepareRename", asked)).rejects.toThrow(/key of a bibliography/);
});
