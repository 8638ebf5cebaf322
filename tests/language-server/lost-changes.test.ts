/**
 * A wire that drops, swaps and doubles changes: either the server holds the client's text, or it says that it does not and shows no
 * number, and opening the text again heals it. `ISTHMUS_WIRES` is how many sequences of edits are tried.
 */
import { pathToFileURL } from "node:url";
import fc from "fast-check";
import { afterAll, describe, expect, test } from "vitest";
import { sha256 } from "../../grammar/sha-256.ts";
import { linesOf } from "../../server/answers/lines.ts";
import { type TextHashAnswer, textHashMethod } from "../../server/language-server/own-requests.ts";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const plan = sampleText("plans/simple-shaft.isthmus");
const wires = Number(process.env.ISTHMUS_WIRES ?? 60);
const asked = { textDocument: { uri } };
const start = { line: 0, character: 0 };

const server = new ProtocolClient(["dist/isthmus.js", "serve", "--stdio"]);
afterAll(() => server.kill());
await server.initialize({ textDocument: { diagnostic: {} } }, samples);

async function codes(): Promise<string[]> {
  const { items } = await server.request<{ items: { code: string }[] }>("textDocument/diagnostic", asked);
  return items.map(({ code }) => code);
}

function holds(text: string, version: number): Promise<TextHashAnswer> {
  return server.request(textHashMethod, { uri, held: { version, sha256: sha256(text) } });
}

async function expectWithheld(): Promise<void> {
  expect(await codes()).toEqual(["out-of-step"]);
  expect(await server.request("textDocument/documentSymbol", asked)).toBeNull();
  expect(await server.request("textDocument/hover", { ...asked, position: start })).toBeNull();
}

const edits = fc.array(
  fc.record({
    at: fc.nat({ max: plan.length }),
    length: fc.nat({ max: 5 }),
    put: fc.constantFrom("", "x", "1", "\n", "é", "🦴"),
    wire: fc.constantFrom("whole", "whole", "whole", "whole", "drop", "swap", "double"),
  }),
  { minLength: 1, maxLength: 12 },
);

interface Edit {
  readonly at: number;
  readonly length: number;
  readonly put: string;
  readonly wire: string;
}

/** Types the edits over the wire; the answer is what the client holds then, and whether a change came late or twice. */
function typedOver(made: readonly Edit[]): { text: string; version: number; disordered: boolean } {
  let text = plan;
  let version = 1;
  let disordered = false;
  let behind: object | undefined;
  for (const { at, length, put, wire } of made) {
    const next = edited(text, at, length, put);
    // Between the halves of a pair the protocol has no position that both sides could mean.
    if (/\p{Surrogate}/u.test(next.text)) continue;
    text = next.text;
    version += 1;
    const change = { textDocument: { uri, version }, contentChanges: [{ range: next.range, text: put }] };
    if (wire === "drop") continue;
    if (wire === "swap" && behind === undefined) {
      behind = change;
      continue;
    }
    const sent = [change, ...(wire === "double" ? [change] : []), ...(behind === undefined ? [] : [behind])];
    for (const each of sent) server.notify("textDocument/didChange", each);
    behind = undefined;
    disordered ||= sent.length > 1;
  }
  return { text, version, disordered };
}

function edited(text: string, at: number, length: number, put: string) {
  const lines = linesOf(text);
  const from = Math.min(at, text.length);
  const to = Math.min(from + length, text.length);
  return {
    text: text.slice(0, from) + put + text.slice(to),
    range: { start: lines.position(from), end: lines.position(to) },
  };
}

test(
  "the texts are one, or the server says that they are not and shows no number",
  async () => {
    const seen = { inStep: 0, outOfStep: 0, foundByHash: 0 };
    await fc.assert(
      fc.asyncProperty(edits, async (made) => {
        server.open(uri, plan, 1);
        const { text, version, disordered } = typedOver(made);
        const answer = await holds(text, version);
        if (answer === null) throw new Error("the text is open");
        if (answer.inStep) {
          expect(disordered).toBe(false);
          expect(answer.sha256).toBe(sha256(text));
          expect(await codes()).not.toContain("out-of-step");
          seen.inStep += 1;
        } else {
          await expectWithheld();
          seen.outOfStep += 1;
          if (!disordered) seen.foundByHash += 1;
        }
        server.notify("textDocument/didClose", asked);
        server.open(uri, text, version + 1);
        expect(await holds(text, version + 1)).toMatchObject({
          version: version + 1,
          sha256: sha256(text),
          inStep: true,
        });
        expect(await codes()).not.toContain("out-of-step");
        server.notify("textDocument/didClose", asked);
      }),
      { numRuns: wires, endOnFailure: true },
    );
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(0);
  },
  60_000 + wires * 1000,
);

describe("what a hash tells", () => {
  test("a text that is not open is not held", async () => {
    expect(await server.request(textHashMethod, { uri: "file:///none" })).toBeNull();
  });

  test("a change that is newer than the client's hash tells nothing of a loss", async () => {
    server.open(uri, plan, 5);
    expect(await holds("older", 4)).toMatchObject({ version: 5, inStep: true });
    expect(await holds(plan, 9)).toMatchObject({ version: 5, inStep: true });
    expect(await holds("newer", 6)).toMatchObject({ version: 5, inStep: false });
    await expectWithheld();
    server.notify("textDocument/didClose", asked);
  });

  test("a change of a text whose opening was lost is told, until it is opened", async () => {
    server.notify("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ text: plan }] });
    await expectWithheld();
    server.open(uri, plan, 3);
    expect(await codes()).not.toContain("out-of-step");
    server.notify("textDocument/didClose", asked);
  });
});
