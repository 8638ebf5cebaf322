/** The least client of a language server over stdio that can be timed: no checks of shapes, no files, requests and notes alone. */
import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { framed, unframed } from "../language-server/framed.ts";

interface Message {
  readonly id?: number | string;
  readonly method?: string;
  readonly result?: unknown;
  readonly error?: { readonly message: string };
}

export class StdioClient {
  readonly #process: ChildProcessWithoutNullStreams;
  readonly #waiting = new Map<number | string, { resolve(result: unknown): void; reject(fault: Error): void }>();
  #next = 1;
  #push: (() => void) | undefined;

  constructor(words: readonly string[]) {
    this.#process = spawn(process.execPath, [...words], { stdio: "pipe" });
    this.#process.stdout.on(
      "data",
      unframed((message) => this.#handle(message as Message)),
    );
    this.#process.stderr.resume();
    this.#process.on("exit", () => {
      for (const { reject } of this.#waiting.values()) reject(new Error(`${words[0]} ended before it answered`));
    });
  }

  request(method: string, params: unknown): Promise<unknown> {
    const id = this.#next++;
    const answer = new Promise<unknown>((resolve, reject) => this.#waiting.set(id, { resolve, reject }));
    this.#send({ jsonrpc: "2.0", id, method, params });
    return answer;
  }

  notify(method: string, params: unknown): void {
    this.#send({ jsonrpc: "2.0", method, params });
  }

  /** Resolves at the next diagnostics the server pushes; for a server that cannot be asked. */
  nextPush(): Promise<void> {
    return new Promise((resolve) => {
      this.#push = resolve;
    });
  }

  /** A client that pulls diagnostics and counts in UTF-16 units. */
  async initialize(folder?: string): Promise<void> {
    await this.request("initialize", {
      processId: process.pid,
      rootUri: folder ?? null,
      workspaceFolders: folder === undefined ? null : [{ uri: folder, name: "bench" }],
      capabilities: { textDocument: { diagnostic: {} }, general: { positionEncodings: ["utf-16"] } },
    });
    this.notify("initialized", {});
  }

  open(uri: string, text: string, languageId: string): void {
    this.notify("textDocument/didOpen", { textDocument: { uri, languageId, version: 1, text } });
  }

  /** In MB of memory that the process holds now; undefined where the system does not tell. */
  memory(): number | undefined {
    try {
      const status = readFileSync(`/proc/${this.#process.pid}/status`, "utf8");
      const [, kilobytes] = /^VmRSS:\s+(\d+) kB/m.exec(status) ?? [];
      return kilobytes === undefined ? undefined : Number(kilobytes) / 1024;
    } catch {
      return undefined;
    }
  }

  async close(): Promise<void> {
    const ended = new Promise((resolve) => this.#process.once("exit", resolve));
    await this.request("shutdown", null);
    this.notify("exit", null);
    await ended;
  }

  kill(): void {
    this.#process.kill("SIGKILL");
  }

  #send(message: object): void {
    this.#process.stdin.write(framed(JSON.stringify(message)));
  }

  #handle({ id, method, result, error }: Message): void {
    if (method === "textDocument/publishDiagnostics") this.#push?.();
    if (id === undefined) return;
    // A question of the server's: nothing that is measured needs an answer with content.
    if (method !== undefined) {
      this.#send({ jsonrpc: "2.0", id, result: null });
      return;
    }
    const waiting = this.#waiting.get(id);
    this.#waiting.delete(id);
    if (error === undefined) waiting?.resolve(result);
    else waiting?.reject(new Error(error.message));
  }
}
