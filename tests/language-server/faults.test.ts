/**
 * Faults inside the server: every handler of a request is made to throw by the connection this test hands in, and every answer is
 * an error with the request's own id. And what becomes of the server when the editor's process is killed.
 */
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { PassThrough } from "node:stream";
import { pathToFileURL } from "node:url";
import { describe, expect, test } from "vitest";
import {
  type Connection,
  createConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { textHashMethod } from "../../server/language-server/own-requests.ts";
import { startServer } from "../../server/language-server/server.ts";
import { waitingForImports } from "../../server/language-server/waiting.ts";
import type { Files } from "../../server/language-server/workspace.ts";
import { sampleText } from "../check.ts";

const root = `${import.meta.dirname}/../..`;
const uri = `${pathToFileURL(`${root}/samples`).href}/plans/checked.isthmus`;
const plan = sampleText("plans/simple-shaft.isthmus");

interface Answer {
  readonly id?: number;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

const nothing: Files = { read: () => ({ kind: "missing", because: "there is no such file" }) };

/** The server in this process; `wrap` may put something between it and its connection. */
function serverHere(wrap: (connection: Connection) => Connection, files: Files = nothing) {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  const connection = createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(fromServer), {
    messageStrategy: waitingForImports(() => running),
  });
  const running = startServer(wrap(connection), () => files);
  const waiting = new Map<number, (answer: Answer) => void>();
  const twice: Answer[] = [];
  new StreamMessageReader(fromServer).listen((message) => {
    const answer = message as Answer;
    if (answer.id === undefined || "method" in answer) return;
    const take = waiting.get(answer.id);
    waiting.delete(answer.id);
    if (take === undefined) twice.push(answer);
    else take(answer);
  });
  const send = new StreamMessageWriter(toServer);
  let next = 1;
  const request = (method: string, params: object | null): Promise<Answer> => {
    const id = next++;
    const answer = new Promise<Answer>((resolve) => waiting.set(id, resolve));
    void send.write({ jsonrpc: "2.0", id, method, params } as never);
    return answer;
  };
  const notify = (method: string, params: object): void => void send.write({ jsonrpc: "2.0", method, params } as never);
  return { request, notify, twice };
}

async function begin({ request, notify }: ReturnType<typeof serverHere>): Promise<void> {
  const capabilities = { textDocument: { diagnostic: {} }, workspace: { textDocumentContent: {} } };
  await request("initialize", { processId: null, rootUri: null, workspaceFolders: null, capabilities });
  notify("initialized", {});
  notify("textDocument/didOpen", { textDocument: { uri, languageId: "isthmus", version: 1, text: plan } });
}

const kept = new Set(["onInitialize", "onInitialized", "onShutdown", "onExit"]);

/** A connection whose handlers all throw, whatever they were, but those of the server's life. */
function faulty<T extends object>(part: T): T {
  return new Proxy(part, {
    get(target, name) {
      const value: unknown = Reflect.get(target, name);
      if (typeof value === "object" && value !== null) return faulty(value);
      if (typeof value !== "function") return value;
      if (typeof name !== "string" || !/^(on|resolve)/.test(name) || kept.has(name)) return value.bind(target);
      return (...given: readonly unknown[]) =>
        value.apply(
          target,
          given.map((each) => (typeof each === "function" ? planted : each)),
        );
    },
  });
}

function planted(): never {
  throw new Error("planted fault");
}

const requested = readFileSync(`${root}/server/language-server/FEATURES.md`, "utf8")
  .split("\n")
  .map((line) => line.split("|").map((cell) => cell.trim()))
  .filter((cells) => cells.length === 6 && cells[1]?.startsWith("`"))
  .map((cells) => (cells[1] ?? "").replaceAll("`", ""))
  .filter((method) => !method.includes("/did"));

describe("a handler that throws", () => {
  test("every request is answered by an error with its id, and the server lives", async () => {
    const server = serverHere(faulty);
    await begin(server);
    const methods = [...requested, textHashMethod, "isthmus/revisions"];
    expect(methods.length).toBeGreaterThan(30);
    for (const method of methods) {
      const { error } = await server.request(method, { textDocument: { uri }, uri, files: [], previousResultIds: [] });
      expect(error?.code, method).toBe(-32603);
      expect(error?.message, method).toContain("planted fault");
    }
    expect((await server.request("shutdown", null)).error).toBeUndefined();
    expect(server.twice).toEqual([]);
  });

  test("a fault in making the analysis is an answer too, before and after", async () => {
    let throws = true;
    const read = (): ReturnType<Files["read"]> => (throws ? planted() : nothing.read("", ""));
    const server = serverHere((connection) => connection, { read });
    await begin(server);
    const asked = { textDocument: { uri } };
    for (const method of ["textDocument/documentSymbol", "textDocument/diagnostic", "textDocument/foldingRange"]) {
      expect((await server.request(method, asked)).error?.message, method).toContain("planted fault");
    }
    throws = false;
    expect((await server.request("textDocument/documentSymbol", asked)).result).toHaveLength(1);
  });

  test("imports that fail to come let the request go on to its own answer", async () => {
    let waited = 0;
    const lost = (): Promise<void> =>
      new Promise((_, reject) => {
        waited += 1;
        setTimeout(() => reject(new Error("lost")), 20);
      });
    const read = (): ReturnType<Files["read"]> =>
      waited === 0 ? { kind: "pending", arrives: lost() } : nothing.read("", "");
    const server = serverHere((connection) => connection, { read });
    await begin(server);
    const asked = server.request("textDocument/documentSymbol", { textDocument: { uri } });
    expect((await asked).result).toHaveLength(1);
    expect(waited).toBe(1);
  });
});

describe("a text that changes while its imports are waited for", () => {
  test("a request about the older text is refused by the code for it; the next one is answered", async () => {
    let arrive = (): void => undefined;
    let throws = true;
    const arrives = new Promise<void>((resolve) => {
      arrive = resolve;
    });
    const read = (): ReturnType<Files["read"]> => (throws ? { kind: "pending", arrives } : nothing.read("", ""));
    const server = serverHere((connection) => connection, { read });
    await begin(server);
    const options = { tabSize: 2, insertSpaces: true };
    const asked = server.request("textDocument/formatting", { textDocument: { uri }, options });
    const text = `${plan}\n\n`;
    server.notify("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ text }] });
    await server.request(textHashMethod, { uri });
    throws = false;
    arrive();
    expect((await asked).error?.code).toBe(-32801);
    expect((await server.request("textDocument/formatting", { textDocument: { uri }, options })).result).not.toBeNull();
  });
});

describe("the editor's process is killed", () => {
  const start = (processId: string): string => `
    const server = require("node:child_process").spawn(process.execPath, ["dist/isthmus.js", "serve", "--stdio"],
      { stdio: ["pipe", "pipe", "inherit"] });
    const body = JSON.stringify({ jsonrpc: "2.0", id: 1, method: "initialize",
      params: { processId: ${processId}, rootUri: null, capabilities: {} } });
    server.stdin.write("Content-Length: " + body.length + "\\r\\n\\r\\n" + body);
    server.stdout.once("data", () => console.log(server.pid));
    setInterval(() => {}, 1000);`;

  test.each(["null", "process.pid"])("the server ends within ten seconds, told of its process as %s", async (told) => {
    const editor = spawn(process.execPath, ["-e", start(told)], { cwd: root, stdio: ["ignore", "pipe", "inherit"] });
    const pid = await new Promise<number>((resolve) => editor.stdout.once("data", (line) => resolve(Number(line))));
    expect(isAlive(pid)).toBe(true);
    editor.kill("SIGKILL");
    const killed = Date.now();
    while (isAlive(pid) && Date.now() - killed < 15_000) await new Promise((resolve) => setTimeout(resolve, 50));
    expect(Date.now() - killed).toBeLessThan(10_000);
  });
});

/** A process that has ended and that nobody has asked about is not alive. */
function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return !/^State:\s+Z/m.test(readFileSync(`/proc/${pid}/status`, "utf8"));
  } catch {
    return false;
  }
}
