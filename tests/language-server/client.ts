/**
 * A small client of the language server protocol: matches answers, keeps what was pushed, reads files for a server that asks. It
 * speaks to the bundled server over real stdio, or to the browser's bundle as to a worker. Whatever the server says that does not fit
 * the protocol's shapes fails the request that was waiting, or the next one.
 */
import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { listFilesMethod, readFileMethod } from "../../server/language-server/own-requests.ts";
import { framed, unframed } from "./framed.ts";
import { wrongInParams, wrongInResult } from "./shapes.ts";
import { WorkerServer } from "./worker-server.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

interface Message {
  readonly id?: number | string | null;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

/** Where the messages go and come from. */
export interface Server {
  readonly exited: Promise<number | null>;
  send(message: object): void;
  /** Undefined where there is no process. */
  readonly pid: number | undefined;
  raw(bytes: string | Uint8Array): void;
  endInput(): void;
  kill(): void;
}

type StartServer = (take: (message: object) => void) => Server;

const startOnStdio: StartServer = (take) => new StdioServer(["dist/isthmus.js", "serve", "--stdio"], take);
let startDefault = startOnStdio;

/** From now on every client that names no program speaks to the browser's bundle. */
export function speakToWorker(): void {
  startDefault = (take) => new WorkerServer(take);
}

export function speaksToWorker(): boolean {
  return startDefault !== startOnStdio;
}

export class ProtocolClient {
  readonly pushed: Message[] = [];
  /** Answers that no request of this client waits for. */
  readonly unasked: Message[] = [];
  readonly exited: Promise<number | null>;
  readonly #server: Server;
  readonly #waiting = new Map<number | string, (message: Message) => void>();
  readonly #answers = new Map<string, unknown>();
  readonly #wrong: string[] = [];
  #folder: string | undefined;
  #next = 1;

  /** Starts the bundled server; `npm test` has made the bundle. */
  constructor(words?: readonly string[]) {
    const take = (message: object): void => this.#handle(message as Message);
    this.#server = words === undefined ? startDefault(take) : new StdioServer(words, take);
    this.exited = this.#server.exited;
  }

  /** The answer's result; rejects with the server's own error message. */
  request<T>(method: string, params: unknown): Promise<T> {
    const id = this.#next++;
    const answer = new Promise<T>((resolve, reject) => {
      this.#waiting.set(id, ({ error, result }) => {
        if (error === undefined) this.#wrong.push(...wrongInResult(method, result));
        const wrong = this.#wrong.splice(0);
        if (wrong.length > 0) reject(new Error(`does not fit the protocol: ${wrong.join("; ")}`));
        else if (error === undefined) resolve(result as T);
        else reject(new Error(`${error.code} ${error.message}`));
      });
    });
    this.#server.send({ jsonrpc: "2.0", id, method, params });
    return answer;
  }

  /** Of the request made last. */
  get lastId(): number {
    return this.#next - 1;
  }

  /** The same, with the word to leave it following at once. */
  requestThenCancel<T>(method: string, params: unknown): Promise<T> {
    const answer = this.request<T>(method, params);
    this.notify("$/cancelRequest", { id: this.lastId });
    return answer;
  }

  notify(method: string, params: unknown): void {
    this.#server.send({ jsonrpc: "2.0", method, params });
  }

  /** From now on a request of the server's is answered so. */
  answer(method: string, result: unknown): void {
    this.#answers.set(method, result);
  }

  raw(bytes: string | Uint8Array): void {
    this.#server.raw(bytes);
  }

  endInput(): void {
    this.#server.endInput();
  }

  get pid(): number | undefined {
    return this.#server.pid;
  }

  /** When an answer comes to a request that was sent as bytes. */
  said(id: number): Promise<string> {
    return new Promise((resolve) => this.#waiting.set(id, () => resolve("answered")));
  }

  async initialize(
    capabilities: object,
    folder?: string,
    options: object = {},
  ): Promise<{ readonly capabilities: Record<string, unknown> }> {
    this.#folder = folder;
    const workspaceFolders = folder === undefined ? null : [{ uri: folder, name: "samples" }];
    const result = await this.request<{ capabilities: Record<string, unknown> }>("initialize", {
      processId: process.pid,
      rootUri: folder ?? null,
      workspaceFolders,
      capabilities,
      initializationOptions: { [readFileMethod]: true, [listFilesMethod]: true, ...options },
    });
    this.notify("initialized", {});
    return result;
  }

  open(uri: string, text: string, version = 1): void {
    this.notify("textDocument/didOpen", { textDocument: { uri, languageId: "isthmus", version, text } });
  }

  async close(): Promise<number | null> {
    await this.request("shutdown", null);
    this.notify("exit", null);
    return this.exited;
  }

  kill(): void {
    this.#server.kill();
  }

  #handle(message: Message): void {
    const { id, method } = message;
    if (method === undefined && id !== undefined) {
      const waiting = id === null ? undefined : this.#waiting.get(id);
      if (waiting === undefined || id === null) return void this.unasked.push(message);
      waiting(message);
      this.#waiting.delete(id);
      return;
    }
    this.pushed.push(message);
    this.#wrong.push(...wrongInParams(method ?? "", message.params));
    if (id === undefined) return;
    const result = this.#answers.has(method ?? "") ? this.#answers.get(method ?? "") : answerTo(message, this.#folder);
    this.#server.send({ jsonrpc: "2.0", id, result });
  }
}

/** As an editor's file system answers; nothing else that a server asks needs an answer. */
function answerTo({ method, params }: Message, folder: string | undefined): unknown {
  if (method === listFilesMethod) return folder === undefined ? [] : filesIn(fileURLToPath(folder));
  if (method !== readFileMethod) return null;
  try {
    return { text: readFileSync(fileURLToPath((params as { uri: string }).uri), "utf8") };
  } catch {
    return { kind: "missing", because: "there is no such file" };
  }
}

function filesIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => /\.(isthmus|bib)$/.test(name))
    .map((name) => pathToFileURL(join(folder, name)).href);
}

/** A process, with its messages framed on its standard input and output. */
class StdioServer implements Server {
  readonly exited: Promise<number | null>;
  readonly #process: ChildProcessWithoutNullStreams;

  constructor(words: readonly string[], take: (message: object) => void) {
    this.#process = spawn(process.execPath, [...words], { cwd: root, stdio: "pipe" });
    this.#process.stdout.on("data", unframed(take));
    // Who writes to a server that has ended is told so by `exited`.
    this.#process.stdin.on("error", () => undefined);
    this.exited = new Promise((resolve) => this.#process.on("exit", resolve));
  }

  get pid(): number | undefined {
    return this.#process.pid;
  }

  raw(bytes: string | Uint8Array): void {
    this.#process.stdin.write(bytes);
  }

  endInput(): void {
    this.#process.stdin.end();
  }

  kill(): void {
    this.#process.kill("SIGKILL");
  }

  send(message: object): void {
    this.#process.stdin.write(framed(JSON.stringify(message)));
  }
}
