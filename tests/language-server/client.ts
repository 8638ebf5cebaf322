/** A small client of the language server protocol over real stdio: frames messages, matches answers, keeps what was pushed. */
import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

interface Message {
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

export class ProtocolClient {
  readonly pushed: Message[] = [];
  readonly exited: Promise<number | null>;
  readonly #server: ChildProcessWithoutNullStreams;
  readonly #waiting = new Map<number | string, (message: Message) => void>();
  #received = Buffer.alloc(0);
  #next = 1;

  /** Starts the bundled server; `npm test` has made the bundle. */
  constructor(words: readonly string[] = ["dist/isthmus.js", "serve", "--stdio"]) {
    this.#server = spawn(process.execPath, [...words], { cwd: root, stdio: "pipe" });
    this.#server.stdout.on("data", (chunk: Buffer) => this.#take(chunk));
    this.exited = new Promise((resolve) => this.#server.on("exit", resolve));
  }

  /** The answer's result; rejects with the server's own error message. */
  request<T>(method: string, params: unknown): Promise<T> {
    const id = this.#next++;
    const answer = new Promise<T>((resolve, reject) => {
      this.#waiting.set(id, ({ error, result }) => {
        if (error === undefined) resolve(result as T);
        else reject(new Error(`${error.code} ${error.message}`));
      });
    });
    this.#send({ jsonrpc: "2.0", id, method, params });
    return answer;
  }

  notify(method: string, params: unknown): void {
    this.#send({ jsonrpc: "2.0", method, params });
  }

  raw(bytes: string): void {
    this.#server.stdin.write(bytes);
  }

  async initialize(capabilities: object, folder?: string): Promise<{ readonly capabilities: Record<string, unknown> }> {
    const workspaceFolders = folder === undefined ? null : [{ uri: folder, name: "samples" }];
    const result = await this.request<{ capabilities: Record<string, unknown> }>("initialize", {
      processId: process.pid,
      rootUri: folder ?? null,
      workspaceFolders,
      capabilities,
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
    this.#server.kill("SIGKILL");
  }

  #send(message: object): void {
    const body = Buffer.from(JSON.stringify(message), "utf8");
    this.#server.stdin.write(`Content-Length: ${body.length}\r\n\r\n`);
    this.#server.stdin.write(body);
  }

  #take(chunk: Buffer): void {
    this.#received = Buffer.concat([this.#received, chunk]);
    for (;;) {
      const end = this.#received.indexOf("\r\n\r\n");
      if (end < 0) return;
      const length = Number(/Content-Length: (\d+)/i.exec(this.#received.subarray(0, end).toString("ascii"))?.[1]);
      if (this.#received.length < end + 4 + length) return;
      const body = this.#received.subarray(end + 4, end + 4 + length).toString("utf8");
      this.#received = this.#received.subarray(end + 4 + length);
      this.#handle(JSON.parse(body) as Message);
    }
  }

  #handle(message: Message): void {
    const { id, method } = message;
    if (method === undefined && id !== undefined) {
      this.#waiting.get(id)?.(message);
      this.#waiting.delete(id);
      return;
    }
    this.pushed.push(message);
    if (id !== undefined) this.#send({ jsonrpc: "2.0", id, result: null });
  }
}
