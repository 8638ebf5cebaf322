/**
 * Every request the server answers is left at a random moment, between edits of the text it is about: each has exactly one answer, the
 * server never hangs, and what it says afterwards is what a server says that has seen the last text alone. `ISTHMUS_CANCELS` is how
 * many rounds.
 */
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import fc from "fast-check";
import { afterAll, expect, test } from "vitest";
import { revisionsMethod, textHashMethod } from "../../server/language-server/own-requests.ts";
import { mistaken } from "../answers/mutations.ts";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const plan = sampleText("plans/simple-shaft.isthmus");
const rounds = Number(process.env.ISTHMUS_CANCELS ?? 40);
const here = { textDocument: { uri } };
const options = { tabSize: 2, insertSpaces: true };

interface Place {
  readonly line: number;
  readonly character: number;
}

/** What a later request is asked with: answers about the plan as it was opened, which a changed text makes old. */
type Items = ReadonlyMap<string, unknown>;

/** How each method of the table is asked at a place; undefined where the plan has nothing to ask it about. */
const asked: Readonly<Record<string, (position: Place, items: Items) => object | null>> = {
  "textDocument/diagnostic": () => here,
  "workspace/diagnostic": () => ({ previousResultIds: [] }),
  "textDocument/hover": (position) => ({ ...here, position }),
  "textDocument/completion": (position) => ({ ...here, position }),
  "completionItem/resolve": (_, items) => items.get("completion") as object,
  "textDocument/signatureHelp": (position) => ({ ...here, position }),
  "textDocument/definition": (position) => ({ ...here, position }),
  "textDocument/references": (position) => ({ ...here, position, context: { includeDeclaration: true } }),
  "textDocument/documentHighlight": (position) => ({ ...here, position }),
  "textDocument/documentSymbol": () => here,
  "workspace/symbol": () => ({ query: "a" }),
  "textDocument/codeAction": (position) => ({ ...here, range: at(position), context: { diagnostics: [] } }),
  "textDocument/codeLens": () => here,
  "workspace/executeCommand": (position) => ({
    command: "isthmus.showFinding",
    arguments: [{ uri, range: at(position) }],
  }),
  "textDocument/documentLink": () => here,
  "documentLink/resolve": (_, items) => items.get("link") as object,
  "textDocument/formatting": () => ({ ...here, options }),
  "textDocument/rangeFormatting": (position) => ({ ...here, range: at(position), options }),
  "textDocument/rangesFormatting": (position) => ({ ...here, ranges: [at(position)], options }),
  "textDocument/onTypeFormatting": (position) => ({ ...here, position, ch: "\n", options }),
  "textDocument/rename": (position) => ({ ...here, position, newName: "another" }),
  "textDocument/prepareRename": (position) => ({ ...here, position }),
  "textDocument/linkedEditingRange": (position) => ({ ...here, position }),
  "textDocument/foldingRange": () => here,
  "textDocument/selectionRange": (position) => ({ ...here, positions: [position] }),
  "textDocument/prepareCallHierarchy": (position) => ({ ...here, position }),
  "callHierarchy/incomingCalls": (_, items) => ({ item: items.get("call") }),
  "callHierarchy/outgoingCalls": (_, items) => ({ item: items.get("call") }),
  "textDocument/inlayHint": (position) => ({ ...here, range: { start: { line: 0, character: 0 }, end: position } }),
  "inlayHint/resolve": (_, items) => items.get("hint") as object,
  "textDocument/semanticTokens/full": () => here,
  "textDocument/semanticTokens/full/delta": () => ({ ...here, previousResultId: "1" }),
  "textDocument/semanticTokens/range": (position) => ({ ...here, range: at(position) }),
  "workspace/willRenameFiles": () => ({
    files: [{ oldUri: `${samples}/catalogue/tarnbeck.isthmus`, newUri: `${samples}/catalogue/other.isthmus` }],
  }),
  "workspace/textDocumentContent": () => ({ uri: `isthmus-read-only:/printed?${encodeURIComponent(uri)}` }),
  [textHashMethod]: () => here,
  [revisionsMethod]: () => ({ uri: `${samples}/plans/simple-shaft.isthmus` }),
};

function at(position: Place): { readonly start: Place; readonly end: Place } {
  return { start: position, end: { line: position.line + 2, character: 0 } };
}

async function started(): Promise<ProtocolClient> {
  const client = new ProtocolClient(["dist/isthmus.js", "serve", "--stdio"]);
  const textDocument = { diagnostic: {}, documentLink: {}, inlayHint: { resolveSupport: { properties: ["tooltip"] } } };
  await client.initialize({ textDocument, workspace: { textDocumentContent: {} } }, samples, {
    [revisionsMethod]: true,
  });
  return client;
}

const server = await started();
const scratch = await started();
afterAll(() => {
  server.kill();
  scratch.kill();
});

async function itemsOf(client: ProtocolClient): Promise<Items> {
  client.open(uri, plan);
  const start = { line: 0, character: 0 };
  const drill = plan.slice(0, plan.indexOf("screw 34 mm") + 8).split("\n");
  const position = { line: drill.length - 1, character: drill.at(-1)?.length ?? 0 };
  const completion = await client.request<{ items: unknown[] } | unknown[]>("textDocument/completion", {
    ...here,
    position,
  });
  const hints = await client.request<unknown[]>("textDocument/inlayHint", {
    ...here,
    range: { start, end: { line: 60, character: 0 } },
  });
  const links = await client.request<unknown[]>("textDocument/documentLink", here);
  const calls = await client.request<unknown[]>("textDocument/prepareCallHierarchy", { ...here, position });
  client.notify("textDocument/didClose", here);
  const items = new Map<string, unknown>([
    ["completion", (Array.isArray(completion) ? completion : completion.items)[0]],
    ["hint", hints[0]],
    ["link", links[0]],
    ["call", calls[0]],
  ]);
  expect([...items].filter(([, item]) => item === undefined)).toEqual([]);
  return items;
}

/** Cancelled, out of date, refused with a reason: what a request may be answered with instead. */
const allowed = /^(-32800|-32801|-32802|-32803) /;

const deed = fc.oneof(
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("edit" as const), text: mistaken.map(({ text }) => text) }) },
  {
    weight: 4,
    arbitrary: fc.record({
      kind: fc.constant("ask" as const),
      method: fc.constantFrom(...Object.keys(asked)),
      line: fc.nat(70),
      character: fc.nat(40),
      /** Milliseconds after which it is left; undefined: it is not. */
      left: fc.option(fc.constantFrom(0, 0, 1, 3, 10, 40), { nil: undefined }),
    }),
  },
);

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

test("every method of the table is asked", () => {
  const features = readFileSync(`${import.meta.dirname}/../../server/language-server/FEATURES.md`, "utf8");
  const listed = [...features.matchAll(/^\| `([^`]+)` \| `/gm)]
    .map(([, method = ""]) => method)
    .filter((method) => !method.includes("/did"));
  expect(Object.keys(asked).sort()).toEqual([...listed, revisionsMethod, textHashMethod].sort());
});

test(
  "each request has one answer, and the last text its own",
  async () => {
    const items = await itemsOf(server);
    let version = 1;
    const seen = { answered: 0, left: 0, refused: 0 };
    await fc.assert(
      fc.asyncProperty(fc.array(deed, { minLength: 10, maxLength: 40 }), async (deeds) => {
        let text = plan;
        server.open(uri, text, ++version);
        const answers: Promise<unknown>[] = [];
        const leaving: Promise<void>[] = [];
        for (const each of deeds) {
          if (each.kind === "edit") {
            text = each.text;
            server.notify("textDocument/didChange", {
              textDocument: { uri, version: ++version },
              contentChanges: [{ text }],
            });
            continue;
          }
          const params = asked[each.method]?.({ line: each.line, character: each.character }, items);
          answers.push(server.request(each.method, params));
          const id = server.lastId;
          if (each.left === 0) server.notify("$/cancelRequest", { id });
          else if (each.left !== undefined)
            leaving.push(pause(each.left).then(() => server.notify("$/cancelRequest", { id })));
        }
        const settled = await Promise.allSettled(answers);
        await Promise.all(leaving);
        for (const each of settled) seen[outcomeOf(each)] += 1;
        scratch.open(uri, text);
        for (const method of ["textDocument/diagnostic", "textDocument/documentSymbol", textHashMethod]) {
          const [now, afresh] = await Promise.all([server.request(method, here), scratch.request(method, here)]);
          expect(withoutVersion(now), method).toEqual(withoutVersion(afresh));
        }
        scratch.notify("textDocument/didClose", here);
        server.notify("textDocument/didClose", here);
        expect(server.unasked).toEqual([]);
      }),
      { numRuns: rounds, endOnFailure: true },
    );
    // Whether one is refused besides hangs on the moment at which it is asked.
    expect(Math.min(seen.answered, seen.left)).toBeGreaterThan(0);
  },
  60_000 + rounds * 5_000,
);

/** Anything but an answer, a word that it was left, or one of the allowed refusals throws. */
function outcomeOf(settled: PromiseSettledResult<unknown>): "answered" | "left" | "refused" {
  if (settled.status === "fulfilled") return "answered";
  const { message } = settled.reason as Error;
  expect(message).toMatch(allowed);
  return message.startsWith("-32800") ? "left" : "refused";
}

/** The two servers have counted different versions of the one text. */
function withoutVersion(answer: unknown): unknown {
  const { version: _, resultId: __, ...rest } = { version: 0, resultId: "", ...(answer as object) };
  return Array.isArray(answer) ? answer : rest;
}
