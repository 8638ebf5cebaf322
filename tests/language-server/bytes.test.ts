/**
 * Bytes on standard input that a broken wire may bring: lengths that lie, headers without an end, cut and mutated bodies. The server
 * answers what can still be read or ends; it never hangs and never keeps what has no bound. `ISTHMUS_BYTES` is how many wires are
 * tried.
 */
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import fc from "fast-check";
import { afterAll, afterEach, describe, expect, test } from "vitest";
import { framingWatch } from "../../server/language-server/framing.ts";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";
import { framed } from "./framed.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const plan = sampleText("plans/simple-shaft.isthmus");
const wires = Number(process.env.ISTHMUS_BYTES ?? 8);

let client: ProtocolClient | undefined;
afterEach(() => client?.kill());

async function ready(): Promise<ProtocolClient> {
  client?.kill();
  client = new ProtocolClient(["dist/isthmus.js", "serve", "--stdio"]);
  await client.initialize({ textDocument: { diagnostic: {} } }, samples);
  return client;
}

/** What becomes of a request sent after the bytes. */
async function afterwards(server: ProtocolClient): Promise<string> {
  const asked = server.request("textDocument/documentSymbol", { textDocument: { uri } });
  const answered = asked.then(
    () => "answered",
    () => "answered",
  );
  return Promise.race([answered, server.exited.then((code) => `ended with ${code}`), later(8000)]);
}

function later(milliseconds: number): Promise<string> {
  return new Promise((resolve) => setTimeout(() => resolve("hung"), milliseconds));
}

const good = JSON.stringify({
  ...{ jsonrpc: "2.0", method: "textDocument/didOpen" },
  params: { textDocument: { uri, languageId: "isthmus", version: 1, text: plan } },
});

describe("a frame that is right round a body that is not", () => {
  let borne: ProtocolClient | undefined;
  afterAll(() => borne?.kill());
  const notUtf8 = Buffer.from(good);
  notUtf8.fill(0xff, 120, 130);
  test.each<readonly [string, string | Uint8Array]>([
    ["nothing", ""],
    ["no JSON", "{{{{{"],
    ["JSON cut in the middle", good.slice(0, 300)],
    ["an array", "[]"],
    ["a number", "7"],
    ["null", "null"],
    ["no UTF-8", notUtf8],
    ["a byte 0", "\0"],
    ["a request without its parameters", '{"jsonrpc":"2.0","id":900,"method":"textDocument/hover"}'],
    ["an answer nobody waits for", '{"jsonrpc":"2.0","id":901,"result":7}'],
    ["an opening of nothing", '{"jsonrpc":"2.0","method":"textDocument/didOpen","params":null}'],
  ])("%s: the next message is answered", async (_, body) => {
    // One server bears them all.
    const server = borne ?? (await ready());
    borne = server;
    client = undefined;
    server.raw(framed(body));
    expect(await afterwards(server)).toBe("answered");
    server.open(uri, plan);
    expect(await server.request("textDocument/documentSymbol", { textDocument: { uri } })).toHaveLength(1);
    server.notify("textDocument/didClose", { textDocument: { uri } });
  });

  test("a body that is no JSON is answered by the code for it", async () => {
    const server = await ready();
    server.raw(framed("{{{{{"));
    await afterwards(server);
    expect(server.unasked).toEqual([
      expect.objectContaining({ id: null, error: expect.objectContaining({ code: -32700 }) }),
    ]);
  });
});

describe("a frame that is not right ends the server, and it says so by its exit code", () => {
  test.each<readonly [string, string]>([
    ["no length", "Content-Type: x\r\n\r\n{}"],
    ["a length that is no number", "Content-Length: many\r\n\r\n{}"],
    ["a length below zero", "Content-Length: -2\r\n\r\n{}"],
    ["a length with a fraction", "Content-Length: 2.5\r\n\r\n{}"],
    ["two lengths", "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{} "],
    ["a length nobody can mean", "Content-Length: 99999999999\r\n\r\n{}"],
    ["a length beyond what is kept", "Content-Length: 900000000\r\n\r\n{}"],
    ["a line that is no header", "hello\r\n\r\n{}"],
  ])("%s", async (_, bytes) => {
    const server = await ready();
    server.raw(bytes);
    expect(await afterwards(server)).toBe("ended with 1");
  });

  test("a header without an end is not kept, however long it goes on", async () => {
    const server = await ready();
    const piece = "x".repeat(64 * 1024);
    for (let sent = 0; sent < 100; sent += 1) server.raw(piece);
    expect(await Promise.race([server.exited, later(8000)])).toBe(1);
  });

  test("a body that goes on for ever takes no more memory than a message may", () => {
    const watch = framingWatch();
    expect(watch(Buffer.from(`Content-Length: ${64 * 1024 * 1024}\r\n\r\n`))).toBeUndefined();
    expect(framingWatch()(Buffer.from(`Content-Length: ${64 * 1024 * 1024 + 1}\r\n\r\n`))).toBe(
      "a message is too long",
    );
  });

  test("an input that ends in the middle of a body ends the server", async () => {
    const server = await ready();
    server.raw(framed(good).subarray(0, 400));
    server.endInput();
    expect(await Promise.race([server.exited, later(8000)])).toBe(1);
  });
});

test("frames are found however the bytes are cut", () => {
  fc.assert(
    fc.property(fc.array(fc.string({ unit: "binary" })), fc.array(fc.nat({ max: 40 })), (bodies, cuts) => {
      const all = Buffer.concat(bodies.map((body) => framed(body)));
      const watch = framingWatch();
      let at = 0;
      for (const cut of cuts) {
        expect(watch(all.subarray(at, at + cut))).toBeUndefined();
        at += cut;
      }
      expect(watch(all.subarray(at))).toBeUndefined();
      expect(watch(Buffer.from("y\r\n\r\n"))).toBe("a header has no length");
    }),
  );
});

/** A wire that takes bytes away, doubles them, turns them over, or puts others in. */
const mutated = fc
  .array(fc.record({ at: fc.nat({ max: good.length + 25 }), what: fc.nat({ max: 4 }), byte: fc.nat({ max: 255 }) }), {
    ...{ minLength: 1, maxLength: 4 },
  })
  .map((changes) => {
    let bytes = framed(good);
    for (const { at: anywhere, what, byte } of changes) {
      // Half of them where the header stands.
      const at = byte % 2 === 0 ? anywhere : anywhere % 24;
      const [before, after] = [bytes.subarray(0, at), bytes.subarray(at)];
      if (what === 0) bytes = Buffer.concat([before, after.subarray(1)]);
      else if (what === 1) bytes = Buffer.concat([before, after.subarray(0, 5), after]);
      else if (what === 2) bytes = before;
      else if (what === 3) bytes = Buffer.concat([before, Buffer.from([byte]), after]);
      else bytes = Buffer.concat([before, Buffer.from([byte]), after.subarray(1)]);
    }
    return bytes;
  });

test("after any bytes the server answers, ends, or waits for the rest of a body, and ends with its input", async () => {
  await fc.assert(
    fc.asyncProperty(mutated, async (bytes) => {
      const server = await ready();
      server.raw(bytes);
      // A length that was made longer swallows what follows: so much that every length of six digits has its body.
      const asked = JSON.stringify({ jsonrpc: "2.0", id: 902, method: "isthmus/nothing", params: {} });
      server.raw(Buffer.concat(Array.from({ length: 300 }, () => framed(asked))));
      const told = Promise.race([server.said(902), server.exited.then(() => "ended"), later(8000)]);
      expect(await told).not.toBe("hung");
      expect(memoryOf(server)).toBeLessThan(400);
      server.endInput();
      expect(await Promise.race([server.exited, later(8000)])).toBe(1);
    }),
    { numRuns: wires },
  );
}, 600_000);

/** Of the server's process, in MB; 0 where the system does not tell, or it has ended. */
function memoryOf({ pid }: ProtocolClient): number {
  try {
    const status = readFileSync(`/proc/${pid}/status`, "utf8");
    return Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1] ?? 0) / 1024;
  } catch {
    return 0;
  }
}
