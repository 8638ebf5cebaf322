/**
 * What editors and wires do when they misbehave: positions that are none, requests in the wrong order, cancelled ones. Every
 * request has exactly one answer, and the server stays or ends; it never hangs.
 */
import { spawn } from "node:child_process";
import { pathToFileURL } from "node:url";
import fc from "fast-check";
import { afterEach, describe, expect, test } from "vitest";
import { mistaken } from "../answers/mutations.ts";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const plan = sampleText("plans/simple-shaft.isthmus");

let client: ProtocolClient | undefined;
afterEach(() => client?.kill());

const options = { tabSize: 2, insertSpaces: true };

function refusal(error: Error): string {
  expect(error.message).toContain("-32803");
  return error.message;
}

function started(): ProtocolClient {
  client = new ProtocolClient();
  return client;
}

async function ready(): Promise<ProtocolClient> {
  const server = started();
  await server.initialize({ textDocument: { diagnostic: {} } }, samples);
  return server;
}

test("every request at any position of any text is answered", async () => {
  const server = await ready();
  const anywhere = fc.record({
    line: fc.oneof(fc.integer({ min: -2, max: 90 }), fc.constantFrom(2 ** 31, -(2 ** 31), 0.5)),
    character: fc.oneof(fc.integer({ min: -2, max: 90 }), fc.constantFrom(2 ** 31, -(2 ** 31), 0.5)),
  });
  let version = 1;
  server.open(uri, plan, version);
  await fc.assert(
    fc.asyncProperty(mistaken, anywhere, anywhere, async ({ text }, position, end) => {
      version += 1;
      server.notify("textDocument/didChange", { textDocument: { uri, version }, contentChanges: [{ text }] });
      const here = { textDocument: { uri } };
      const range = { start: position, end };
      const answers = await Promise.all([
        server.request("textDocument/hover", { ...here, position }),
        server.request("textDocument/completion", { ...here, position }),
        server.request("textDocument/definition", { ...here, position }),
        server.request("textDocument/documentSymbol", here),
        server.request("textDocument/inlayHint", { ...here, range }),
        server.request("textDocument/formatting", { ...here, options }),
        server.request("textDocument/codeAction", { ...here, range, context: { diagnostics: [], only: ["quickfix"] } }),
        server.request("textDocument/diagnostic", here),
        server.request("textDocument/references", { ...here, position, context: { includeDeclaration: true } }),
        server.request("textDocument/documentHighlight", { ...here, position }),
        server.request("textDocument/linkedEditingRange", { ...here, position }),
        server.request("textDocument/signatureHelp", { ...here, position }),
        server.request("textDocument/selectionRange", { ...here, positions: [position, end] }),
        server.request("textDocument/prepareCallHierarchy", { ...here, position }),
        server.request("textDocument/foldingRange", here),
        server.request("textDocument/codeLens", here),
        server.request("textDocument/documentLink", here),
        server.request("textDocument/semanticTokens/full", here),
        server.request("textDocument/semanticTokens/range", { ...here, range }),
        server.request("textDocument/rangeFormatting", { ...here, range, options }),
        server.request("textDocument/rangesFormatting", { ...here, ranges: [range, range], options }),
        server.request("textDocument/onTypeFormatting", { ...here, position, ch: "\n", options }),
        // A name that has to stay is refused with a reason, which is an answer too.
        server.request("textDocument/prepareRename", { ...here, position }).catch(refusal),
        server.request("textDocument/rename", { ...here, position, newName: "another" }).catch(refusal),
      ]);
      expect(answers.filter((answer) => answer === undefined)).toEqual([]);
    }),
    { numRuns: 30 },
  );
}, 120_000);

test("an edit at odd positions keeps the text one that both sides can have", async () => {
  const server = await ready();
  server.open(uri, plan);
  const range = { start: { line: 9, character: 1e6 }, end: { line: 2, character: 0 } };
  server.notify("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ range, text: "" }] });
  const symbols = await server.request<{ name: string }[]>("textDocument/documentSymbol", { textDocument: { uri } });
  expect(symbols.map(({ name }) => name)).toEqual(["plan Transverse fracture of the right tibial shaft"]);
});

describe("the order of things", () => {
  test("before initialize nothing is answered but with the code for it", async () => {
    const server = started();
    await expect(server.request("textDocument/hover", { textDocument: { uri }, position })).rejects.toThrow("-32002");
  });

  test("a second initialize is refused", async () => {
    const server = await ready();
    await expect(server.initialize({}, samples)).rejects.toThrow("-32600");
    server.open(uri, plan);
    expect(await server.request("textDocument/documentSymbol", { textDocument: { uri } })).toHaveLength(1);
  });

  test("after shutdown nothing is answered", async () => {
    const server = await ready();
    await server.request("shutdown", null);
    await expect(server.request("textDocument/hover", { textDocument: { uri }, position })).rejects.toThrow("-32600");
  });

  test("a method nobody knows has its code; a notification nobody knows is let be", async () => {
    const server = await ready();
    await expect(server.request("isthmus/nothing", {})).rejects.toThrow("-32601");
    server.notify("$/nothing", {});
    server.notify("isthmus/nothing", {});
    server.open(uri, plan);
    expect(await server.request("textDocument/documentSymbol", { textDocument: { uri } })).toHaveLength(1);
  });

  test("changes and closings of a text that is not open change nothing", async () => {
    const server = await ready();
    server.notify("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ text: plan }] });
    server.notify("textDocument/didClose", { textDocument: { uri } });
    expect(await server.request("textDocument/documentSymbol", { textDocument: { uri } })).toBeNull();
  });
});

const position = { line: 0, character: 0 };

test("a cancelled request has one answer, and the next ones theirs", async () => {
  const server = await ready();
  server.open(uri, plan);
  const asked = Array.from({ length: 20 }, () =>
    server.request("textDocument/documentSymbol", { textDocument: { uri } }),
  );
  for (let id = 2; id < 20; id += 3) server.notify("$/cancelRequest", { id });
  const settled = await Promise.allSettled(asked);
  expect(settled.every(({ status }) => status === "fulfilled" || status === "rejected")).toBe(true);
  expect(settled.some(({ status }) => status === "fulfilled")).toBe(true);
  expect(await server.request("textDocument/documentSymbol", { textDocument: { uri } })).toHaveLength(1);
});

test("the server ends when the editor that started it has gone without a word", async () => {
  const editor = spawn(process.execPath, ["-e", "setInterval(() => {}, 1000)"]);
  const server = started();
  await server.request("initialize", {
    processId: editor.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities: {},
  });
  server.notify("initialized", {});
  const gone = new Promise((resolve) => editor.once("exit", resolve));
  editor.kill("SIGKILL");
  await gone;
  expect(await server.exited).not.toBeNull();
});
