/**
 * The server is killed at a random moment, again and again, under a client that starts it and opens the text anew as editors do.
 * After each start the findings are those of a server that has seen the text alone. `ISTHMUS_KILLS` is how often.
 */
import { pathToFileURL } from "node:url";
import fc from "fast-check";
import { afterAll, expect, test } from "vitest";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const plan = sampleText("plans/simple-shaft.isthmus");
const kills = Number(process.env.ISTHMUS_KILLS ?? 25);
const asked = { textDocument: { uri } };

async function started(): Promise<ProtocolClient> {
  const client = new ProtocolClient(["dist/isthmus.js", "serve", "--stdio"]);
  await client.initialize({ textDocument: { diagnostic: {} } }, samples);
  return client;
}

// It is closed after every question, so that nothing is left in it of an older text but what is kept of files.
const scratch = await started();
let server = await started();
afterAll(() => {
  scratch.kill();
  server.kill();
});

async function fromScratch(text: string): Promise<unknown> {
  scratch.open(uri, text);
  const found = await scratch.request("textDocument/diagnostic", asked);
  scratch.notify("textDocument/didClose", asked);
  return found;
}

const life = fc.record({
  /** Final diameters of reaming that are typed, so that findings come and go. */
  typed: fc.array(fc.integer({ min: 9, max: 14 }), { minLength: 1, maxLength: 6 }),
  /** Milliseconds. */
  until: fc.nat({ max: 60 }),
});

test(
  "findings after a restart are those from scratch, whenever the server was killed",
  async () => {
    let text = plan;
    let version = 1;
    const seen = new Set<string>();
    server.open(uri, text, version);
    await fc.assert(
      fc.asyncProperty(life, async ({ typed, until }) => {
        const killed = new Promise((resolve) => setTimeout(resolve, until)).then(() => server.kill());
        for (const diameter of typed) {
          text = plan.replace("ream 8.5 mm to 11 mm", `ream 8.5 mm to ${diameter} mm`);
          version += 1;
          server.notify("textDocument/didChange", { textDocument: { uri, version }, contentChanges: [{ text }] });
          void server.request("textDocument/diagnostic", asked).catch(() => undefined);
          await new Promise((resolve) => setTimeout(resolve, 10));
        }
        await killed;
        await server.exited;
        server = await started();
        server.open(uri, text, version);
        const found = await server.request("textDocument/diagnostic", asked);
        expect(found).toEqual(await fromScratch(text));
        seen.add(JSON.stringify(found));
      }),
      { numRuns: kills, endOnFailure: true },
    );
    // Otherwise one answer would do for every text.
    expect(seen.size).toBeGreaterThan(1);
  },
  60_000 + kills * 5_000,
);
