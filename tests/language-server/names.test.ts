/** The bundled server over stdio: names over several files, renaming, moved files, the library's symbols and findings. */
import { copyFileSync, cpSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { linesOf } from "../../server/answers/lines.ts";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const samples = fileURLToPath(new URL("../../samples", import.meta.url));
const text = sampleText("plans/simple-shaft.isthmus");

interface Edits {
  readonly documentChanges: readonly {
    readonly textDocument: { readonly uri: string; readonly version: number | null };
    readonly edits: readonly { readonly newText: string; readonly annotationId?: string }[];
  }[];
  readonly changeAnnotations?: Readonly<Record<string, { readonly needsConfirmation: boolean }>>;
}
interface Report {
  readonly kind: string;
  readonly uri: string;
  readonly resultId: string;
  readonly items?: readonly { readonly code: string }[];
}

let client: ProtocolClient | undefined;
let folder = "";
let uri = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "isthmus-library-"));
  cpSync(samples, folder, { recursive: true });
  uri = pathToFileURL(join(folder, "plans/simple-shaft.isthmus")).href;
});
afterEach(() => {
  client?.kill();
  rmSync(folder, { recursive: true, force: true });
});

async function start(capabilities: object = {}): Promise<ProtocolClient> {
  client = new ProtocolClient();
  const pulling = { textDocument: { diagnostic: {} }, workspace: {} };
  await client.initialize({ ...pulling, ...capabilities }, pathToFileURL(folder).href);
  client.open(uri, text);
  return client;
}

function at(words: string, within: number): object {
  return { textDocument: { uri }, position: linesOf(text).position(text.indexOf(words) + within) };
}

function named(file: string): string {
  return pathToFileURL(join(folder, file)).href;
}

describe("textDocument/references", () => {
  test("a hole is found in the catalogue and in plans that are not open", async () => {
    const server = await start();
    const ask = (includeDeclaration: boolean): Promise<readonly { readonly uri: string }[]> =>
      server.request("textDocument/references", { ...at("lock D2", 6), context: { includeDeclaration } });
    const files = new Set((await ask(true)).map((found) => found.uri));
    expect(files).toContain(named("catalogue/tarnbeck.isthmus"));
    expect(files).toContain(named("plans/typical-mistakes.isthmus"));
    expect(new Set((await ask(false)).map((found) => found.uri))).not.toContain(named("catalogue/tarnbeck.isthmus"));
  });

  test("progress is told to a client that asks for it, and a cancelled search has an answer", async () => {
    const server = await start();
    const params = { ...at("lock D2", 6), context: { includeDeclaration: true } };
    await server.request("textDocument/references", { ...params, workDoneToken: "look" });
    const kinds = server.pushed
      .filter(({ method }) => method === "$/progress")
      .map(({ params: told }) => (told as { value: { kind: string } }).value.kind);
    expect(kinds[0]).toBe("begin");
    expect(kinds).toContain("report");
    expect(kinds.at(-1)).toBe("end");
    const cancelled = server.requestThenCancel("textDocument/references", params);
    await expect(cancelled).rejects.toThrow("-32800");
    expect(await server.request("textDocument/references", params)).not.toHaveLength(0);
  });
});

describe("textDocument/rename", () => {
  const annotating = { workspace: { workspaceEdit: { documentChanges: true, changeAnnotationSupport: {} } } };

  test("a hole is renamed everywhere; other files ask to be looked at", async () => {
    const server = await start(annotating);
    const range = await server.request<{ placeholder: string }>("textDocument/prepareRename", at("lock D2", 6));
    expect(range.placeholder).toBe("D2");
    const edit = await server.request<Edits>("textDocument/rename", { ...at("lock D2", 6), newName: "D9" });
    const own = edit.documentChanges.find(({ textDocument }) => textDocument.uri === uri);
    const catalogue = edit.documentChanges.find(({ textDocument }) => textDocument.uri.endsWith("tarnbeck.isthmus"));
    expect(own?.textDocument.version).toBe(1);
    expect(own?.edits.length).toBe(2);
    expect(own?.edits.every(({ annotationId }) => annotationId === undefined)).toBe(true);
    expect(catalogue?.textDocument.version).toBeNull();
    expect(edit.changeAnnotations?.[catalogue?.edits[0]?.annotationId ?? ""]?.needsConfirmation).toBe(true);
  });

  test("a client without annotations gets none; a refusal says why", async () => {
    const server = await start();
    const edit = await server.request<Edits>("textDocument/rename", { ...at("lock D2", 6), newName: "D9" });
    expect(JSON.stringify(edit)).not.toContain("annotation");
    await expect(server.request("textDocument/rename", { ...at("lock D2", 6), newName: "D1" })).rejects.toThrow(
      "taken",
    );
    await expect(server.request("textDocument/prepareRename", at("landmark scar", 10))).rejects.toThrow(
      "reckoned with",
    );
    expect(await server.request("textDocument/prepareRename", at("status for-review", 10))).toBeNull();
  });
});

test("textDocument/documentHighlight and textDocument/linkedEditingRange show the uses in this text", async () => {
  const server = await start();
  const named = text.replace("  status for-review\n", "  let deep = 9 mm\n").replace("sunk 9 mm", "sunk deep");
  server.notify("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ text: named }] });
  const position = linesOf(named).position(named.indexOf("let deep") + 6);
  const here = { textDocument: { uri }, position };
  const lit = await server.request<{ kind: number }[]>("textDocument/documentHighlight", here);
  expect(lit.map(({ kind }) => kind)).toEqual([3, 2]);
  const linked = await server.request<{ ranges: unknown[] }>("textDocument/linkedEditingRange", here);
  expect(linked.ranges).toHaveLength(2);
  expect(await server.request("textDocument/linkedEditingRange", at("case HB", 2))).toBeNull();
});

describe("workspace/willRenameFiles", () => {
  const moved = async (server: ProtocolClient, from: string, to: string): Promise<string> =>
    JSON.stringify(
      await server.request("workspace/willRenameFiles", { files: [{ oldUri: named(from), newUri: named(to) }] }),
    );

  test("the plans that use a catalogue follow it to its new name", async () => {
    const server = await start();
    const edit = await moved(server, "catalogue/tarnbeck.isthmus", "catalogue/old/tarn beck.isthmus");
    expect(edit).toContain('\\"../catalogue/old/tarn beck.isthmus\\"');
    expect(edit).toContain("plans/typical-mistakes.isthmus");
    expect(edit).not.toContain("garrow");
  });

  test("a plan that moves, and a folder that moves, keep what they read", async () => {
    const server = await start();
    const deeper = await moved(server, "plans/simple-shaft.isthmus", "plans/a/b/simple-shaft.isthmus");
    expect(deeper).toContain('\\"../../../catalogue/tarnbeck.isthmus\\"');
    expect(deeper).toContain('\\"../../../protocol/ellerby.isthmus\\"');
    expect(await moved(server, "catalogue", "implants")).toContain('\\"../implants/tarnbeck.isthmus\\"');
    expect(await moved(server, "isthmus.json", "other.json")).toBe("null");
  });
});

test("client/registerCapability is not asked of a client that takes none, and folders come and go", async () => {
  const server = await start({ workspace: { workspaceFolders: true } });
  const hole = { ...at("lock D2", 6), context: { includeDeclaration: true } };
  const found = async (): Promise<number> => (await server.request<unknown[]>("textDocument/references", hole)).length;
  const before = await found();
  const event = { added: [], removed: [{ uri: pathToFileURL(folder).href, name: "samples" }] };
  server.notify("workspace/didChangeWorkspaceFolders", { event });
  expect(await found()).toBeLessThan(before);
  server.notify("workspace/didChangeWorkspaceFolders", { event: { added: event.removed, removed: [] } });
  expect(await found()).toBe(before);
  expect(server.pushed.some(({ method }) => method === "client/registerCapability")).toBe(false);
});

describe("workspace/symbol", () => {
  test("names of files that are not open, by letters in their order", async () => {
    const server = await start();
    const found = await server.request<{ name: string; containerName: string; location: { uri: string } }[]>(
      "workspace/symbol",
      { query: "tnbk" },
    );
    expect(found.map(({ name }) => name)).toEqual(expect.arrayContaining(["tarnbeck", "Tarnbeck, an invented set"]));
    expect(found.find(({ name }) => name === "tarnbeck")?.location.uri).toBe(named("catalogue/tarnbeck.isthmus"));
    const scars = await server.request<{ name: string; containerName: string }[]>("workspace/symbol", {
      query: "scar",
    });
    expect(scars.find(({ name }) => name === "scar")?.containerName).toContain("mm");
    expect(await server.request("workspace/symbol", { query: "no such name" })).toEqual([]);
  });
});

describe("workspace/diagnostic", () => {
  const all = async (server: ProtocolClient, previous: readonly Report[] = []): Promise<readonly Report[]> => {
    const previousResultIds = previous.map((report) => ({ uri: report.uri, value: report.resultId }));
    return (await server.request<{ items: Report[] }>("workspace/diagnostic", { previousResultIds })).items;
  };
  const of = (reports: readonly Report[], file: string): Report | undefined =>
    reports.find((report) => report.uri === named(file));

  test("every file has a report, an unchanged one says so, and a changed one is told anew", async () => {
    const server = await start();
    const first = await all(server);
    const there = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((file) =>
      file.endsWith(".isthmus"),
    );
    expect(first).toHaveLength(there.length);
    expect(of(first, "plans/simple-shaft.isthmus")?.items).toEqual([]);
    expect(of(first, "plans/typical-mistakes.isthmus")?.items?.length).toBeGreaterThan(3);
    const second = await all(server, first);
    expect(second.map(({ kind }) => kind)).toEqual(first.map(() => "unchanged"));
    const mistakes = join(folder, "plans/typical-mistakes.isthmus");
    writeFileSync(mistakes, text);
    const third = await all(server, second);
    expect(of(third, "plans/typical-mistakes.isthmus")).toMatchObject({ kind: "full", items: [] });
    expect(of(third, "plans/distal-third.isthmus")?.kind).toBe("unchanged");
    rmSync(mistakes);
    expect(of(await all(server, third), "plans/typical-mistakes.isthmus")).toMatchObject({ kind: "full", items: [] });
  });

  test("a client that watches on the server's word is asked to, and tells of a file that came", async () => {
    const server = await start({ workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } });
    const first = await all(server);
    const asked = server.pushed.filter(({ method }) => method === "client/registerCapability");
    expect(JSON.stringify(asked)).toContain("workspace/didChangeWatchedFiles");
    expect(JSON.stringify(server.pushed)).toContain("*.isthmus");
    copyFileSync(join(folder, "plans/typical-mistakes.isthmus"), join(folder, "plans/new.isthmus"));
    writeFileSync(join(folder, "plans/distal-third.isthmus"), "isthmus 1\n");
    const changes = [{ uri: named("plans/distal-third.isthmus"), type: 2 }];
    server.notify("workspace/didChangeWatchedFiles", { changes });
    const second = await all(server, first);
    expect(of(second, "plans/new.isthmus")?.kind).toBe("full");
    expect(of(second, "plans/distal-third.isthmus")?.kind).toBe("full");
    expect(of(second, "plans/typical-mistakes.isthmus")?.kind).toBe("unchanged");
  });
});
