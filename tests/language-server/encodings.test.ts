/**
 * One text, two clients: what the server answers in UTF-8 positions is, position by position, what it answers in UTF-16. The text has
 * characters of one to four bytes before, in and behind what is asked about.
 */
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { linesOf } from "../../server/answers/lines.ts";
import { sampleWith } from "../check.ts";
import { ProtocolClient } from "./client.ts";
import type { Position } from "./edits.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const text = sampleWith(
  "plans/simple-shaft.isthmus",
  ["Transverse fracture", "🦴 Quer–é fracture"],
  ["## Chatter starts", "## 🦴é [@one] Chatter starts"],
  ["ream 8.5 mm to 11 mm by", "ream 8.5mm to 13mm by"],
  ['  status for-review\n  summary "Reamed', '  sources "é🦴.bib"\n  let deep = 9 mm\n  summary """🦴\n  –é Reamed'],
  ["across a narrow gap.", 'across a narrow gap.""'],
  ["sunk 9 mm", "sunk deep"],
  ["    cap 5 mm\n", '    step "🦴 é –", "🦴"\n    cap 5mm # 🦴\n'],
);
const lines = linesOf(text);

const encoded = { "utf-16": {}, "utf-8": { general: { positionEncodings: ["utf-8"] } } } as const;
const clients = new Map<string, ProtocolClient>();
beforeAll(async () => {
  for (const [encoding, capabilities] of Object.entries(encoded)) {
    const client = new ProtocolClient();
    const folds = { foldingRange: { lineFoldingOnly: false } };
    await client.initialize({ textDocument: { diagnostic: {}, ...folds }, ...capabilities }, samples);
    client.open(uri, text);
    clients.set(encoding, client);
  }
});
afterAll(() => {
  for (const client of clients.values()) client.kill();
});

function place(words: string, within: number, bytes: boolean): Position {
  const { line, character } = lines.position(text.indexOf(words) + within);
  return { line, character: bytes ? Buffer.byteLength(lines.text(line).slice(0, character)) : character };
}

/** Every position in UTF-8 bytes turned into UTF-16 units, whatever it stands in. */
function inUnits(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inUnits);
  if (typeof value !== "object" || value === null) return value;
  const record = value as Record<string, unknown>;
  if (typeof record.line === "number" && typeof record.character === "number") {
    return { line: record.line, character: unitsAt(record.line, record.character) };
  }
  const entries = Object.entries(record).map(([name, inner]): [string, unknown] => {
    const line = record[name.replace("Character", "Line")];
    const isColumn = name === "startCharacter" || name === "endCharacter";
    return [name, isColumn && typeof line === "number" ? unitsAt(line, inner as number) : inUnits(inner)];
  });
  return Object.fromEntries(entries);
}

function unitsAt(line: number, bytes: number): number {
  const row = Buffer.from(lines.text(line));
  expect(bytes).toBeLessThanOrEqual(row.length);
  return row.subarray(0, bytes).toString("utf8").length;
}

type Ask = (at: (words: string, within?: number) => Position) => object;
const options = { tabSize: 2, insertSpaces: true };
const asked: readonly (readonly [method: string, ask: Ask])[] = [
  ["textDocument/diagnostic", () => ({})],
  ["textDocument/documentSymbol", () => ({})],
  ["textDocument/foldingRange", () => ({})],
  ["textDocument/documentLink", () => ({})],
  ["textDocument/formatting", () => ({ options })],
  ["textDocument/hover", (at) => ({ position: at("cap 5mm", 1) })],
  ["textDocument/definition", (at) => ({ position: at("sunk deep", 6) })],
  ["textDocument/references", (at) => ({ position: at("sunk deep", 6), context: { includeDeclaration: true } })],
  ["textDocument/documentHighlight", (at) => ({ position: at("let deep", 5) })],
  ["textDocument/linkedEditingRange", (at) => ({ position: at("let deep", 5) })],
  ["textDocument/rename", (at) => ({ position: at("let deep", 5), newName: "depth" })],
  ["textDocument/selectionRange", (at) => ({ positions: [at('"🦴 é –"', 4), at("– é".slice(0, 1), 0)] })],
  ["textDocument/completion", (at) => ({ position: at("cap 5mm", 6) })],
  ["textDocument/inlayHint", (at) => ({ range: { start: at("🦴 Quer"), end: at("  removal") } })],
  ["textDocument/rangeFormatting", (at) => ({ range: { start: at("🦴é [@one]"), end: at("cap 5mm", 7) }, options })],
  [
    "textDocument/codeAction",
    (at) => ({ range: { start: at("5mm"), end: at("5mm") }, context: { diagnostics: [], only: ["refactor.extract"] } }),
  ],
  ["textDocument/prepareCallHierarchy", (at) => ({ position: at("cap 5mm", 1) })],
];

test.each(asked)("%s", async (method, ask) => {
  const [units, bytes] = await Promise.all(
    ["utf-16", "utf-8"].map((encoding) => {
      const params = ask((words, within = 0) => place(words, within, encoding === "utf-8"));
      return clients.get(encoding)?.request(method, { textDocument: { uri }, ...params });
    }),
  );
  expect(units).not.toBeNull();
  expect(inUnits(bytes)).toEqual(units);
});

test("the text has what would show a difference", async () => {
  const report = await clients.get("utf-8")?.request("textDocument/documentLink", { textDocument: { uri } });
  const plain = await clients.get("utf-16")?.request("textDocument/documentLink", { textDocument: { uri } });
  expect(report).not.toEqual(plain);
});
