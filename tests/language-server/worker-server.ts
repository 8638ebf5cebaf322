/**
 * The browser's bundle of the server in a world that has what a worker has and nothing of Node's: no process, no require, no file
 * system. Messages pass as a worker's do, as copies.
 */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { createContext, Script } from "node:vm";
import type { Server } from "./client.ts";

const bundle = fileURLToPath(new URL("../../dist/language-server.browser.js", import.meta.url));
let script: Script | undefined;

interface World {
  onmessage?: (event: { readonly data: unknown }) => void;
}

export class WorkerServer implements Server {
  /** A worker has no way to end itself that its maker is told of. */
  readonly exited = new Promise<null>(() => undefined);
  readonly #world: World;
  #ended = false;

  constructor(take: (message: object) => void) {
    const world = createContext({
      ...{ TextEncoder, TextDecoder, URL, performance, console, crypto },
      ...{ setTimeout, clearTimeout, setInterval, clearInterval, queueMicrotask, structuredClone },
      postMessage: (message: object) => {
        const copy = structuredClone(message);
        setImmediate(() => {
          if (!this.#ended) take(copy);
        });
      },
      // Of faults alone the bundle asks to be told so, and there are none here.
      addEventListener: () => undefined,
    });
    this.#world = world;
    script ??= new Script(readFileSync(bundle, "utf8"), { filename: bundle });
    script.runInContext(world);
  }

  send(message: object): void {
    const data = JSON.parse(JSON.stringify(message)) as unknown;
    setImmediate(() => {
      if (!this.#ended) this.#world.onmessage?.({ data });
    });
  }

  readonly pid = undefined;

  raw(): void {
    throw new Error("A worker takes messages, not bytes.");
  }

  endInput(): void {
    throw new Error("A worker has no input that ends.");
  }

  kill(): void {
    this.#ended = true;
  }
}
