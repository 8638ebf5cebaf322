/**
 * Texts as they are typed: line ends and characters of every kind, files with nothing in them, catalogues on their own, and what
 * is open counting before what is on the disk however an editor spells its name.
 */
import { pathToFileURL } from "node:url";
import { afterEach, describe, expect, test } from "vitest";
import { linesOf } from "../../server/answers/lines.ts";
import { sampleText, sampleWith } from "../check.ts";
import { ProtocolClient } from "./client.ts";
import type { Position, Range } from "./edits.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const plan = "plans/simple-shaft.isthmus";

interface Offer {
  readonly label: string;
  readonly insertTextFormat: number;
  readonly textEdit: { readonly range: Range; readonly newText: string };
}

let client: ProtocolClient | undefined;
afterEach(() => client?.kill());

async function start(encoding: "utf-16" | "utf-8" = "utf-16", capabilities: object = {}): Promise<ProtocolClient> {
  client = new ProtocolClient();
  const general = { positionEncodings: [encoding] };
  await client.initialize({ textDocument: { diagnostic: {}, ...capabilities }, general }, samples);
  return client;
}

async function slugs(server: ProtocolClient, of = uri): Promise<readonly string[]> {
  const report = await server.request<{ items: { code: string }[] }>("textDocument/diagnostic", {
    textDocument: { uri: of },
  });
  return report.items.map(({ code }) => code);
}

function asked<T>(server: ProtocolClient, method: string, position: Position, of = uri): Promise<T> {
  return server.request<T>(`textDocument/${method}`, { textDocument: { uri: of }, position });
}

/** The position of an offset by the line ends of the protocol, counted in bytes of UTF-8 or units of UTF-16. */
function positionOf(text: string, offset: number, encoding: "utf-16" | "utf-8"): Position {
  const { line, character } = linesOf(text).position(offset);
  const before = linesOf(text).text(line).slice(0, character);
  return { line, character: encoding === "utf-16" ? character : Buffer.byteLength(before, "utf8") };
}

describe.each(["utf-16", "utf-8"] as const)("in %s", (encoding) => {
  const written = sampleText(plan)
    .replace('summary "Reamed', 'summary "🦴ü Reamed')
    .replace("    wire ball-tip\n", "    \n")
    .replaceAll("\n", "\r\n");

  test("a word typed letter by letter in a text with CRLF is offered over what is typed", async () => {
    const server = await start(encoding);
    server.open(uri, written);
    const at = written.indexOf("    \r\n") + 4;
    let text = written;
    for (const [index, letter] of [..."wire b"].entries()) {
      const position = positionOf(text, at + index, encoding);
      text = text.slice(0, at + index) + letter + text.slice(at + index);
      const range = { start: position, end: position };
      const contentChanges = [{ range, text: letter }];
      server.notify("textDocument/didChange", { textDocument: { uri, version: index + 2 }, contentChanges });
    }
    const end = positionOf(text, at + 6, encoding);
    const offers = await asked<Offer[]>(server, "completion", end);
    expect(offers.map(({ label }) => label)).toEqual(["ball-tip", "smooth"]);
    expect(offers[0]?.textEdit.range).toEqual({ start: positionOf(text, at + 5, encoding), end });
  });

  test("positions behind a character beyond the first plane are right", async () => {
    const server = await start(encoding);
    const text = written.replace(/summary "[^"]*"/, 'summary "🦴ü" 3 mm');
    server.open(uri, text);
    const at = text.indexOf("3 mm");
    const { items } = await server.request<{ items: { code: string; range: Range }[] }>("textDocument/diagnostic", {
      textDocument: { uri },
    });
    expect(items.map(({ range }) => range.start)).toContainEqual(positionOf(text, at, encoding));
  });
});

describe("a text with nothing in it", () => {
  test.each([
    ["an empty file", "", ["isthmus", "plan", "catalogue", "protocol"]],
    ["a file with only a comment", "# Invented.\n", ["isthmus", "plan", "catalogue", "protocol"]],
  ])("%s", async (_, text, labels) => {
    const server = await start();
    server.open(uri, text);
    const end = positionOf(text, text.length, "utf-16");
    const whole = { start: { line: 0, character: 0 }, end };
    expect(await asked(server, "hover", end)).toBeNull();
    expect(await asked(server, "definition", end)).toBeNull();
    expect((await asked<Offer[]>(server, "completion", end)).map(({ label }) => label)).toEqual(labels);
    expect(await server.request("textDocument/documentSymbol", { textDocument: { uri } })).toEqual([]);
    expect(await server.request("textDocument/inlayHint", { textDocument: { uri }, range: whole })).toEqual([]);
    expect(await server.request("textDocument/formatting", { textDocument: { uri }, options: {} })).toEqual([]);
  });
});

describe("a catalogue on its own", () => {
  const own = `${samples}/catalogue/other.isthmus`;
  const text = sampleText("catalogue/tarnbeck.isthmus");

  test("has findings, hovers, definitions and symbols of its own", async () => {
    const server = await start();
    server.open(own, text.replace("    for tibia\n", ""));
    expect(await slugs(server, own)).toEqual(["missing"]);
    server.notify("textDocument/didChange", { textDocument: { uri: own, version: 2 }, contentChanges: [{ text }] });
    expect(await slugs(server, own)).toEqual([]);
    const takes = positionOf(text, text.indexOf("takes dowel") + 8, "utf-16");
    const place = await asked<{ uri: string; range: Range }>(server, "definition", takes, own);
    expect(place.uri).toBe(own);
    expect(linesOf(text).text(place.range.start.line).trim()).toBe("screws dowel {");
    const hover = await asked<{ contents: { value: string } }>(server, "hover", takes, own);
    expect(hover.contents.value).toContain("**dowel**: screws of Tarnbeck");
    const symbols = await server.request<{ name: string }[]>("textDocument/documentSymbol", {
      textDocument: { uri: own },
    });
    expect(symbols.map(({ name }) => name)).toEqual(["catalogue Tarnbeck, an invented set"]);
  });
});

describe("what is open counts before what is on the disk", () => {
  const short = sampleText("catalogue/tarnbeck.isthmus").replace(
    "lengths 240 mm to 420 mm",
    "lengths 240 mm to 315 mm",
  );
  const catalogue = `${samples}/catalogue/tarnbeck.isthmus`;

  test.each([
    ["as Node spells it", catalogue],
    ["with more percent codes", catalogue.replace("tarnbeck", "%74arnbeck")],
  ])("%s", async (_, spelt) => {
    const server = await start();
    server.open(uri, sampleText(plan));
    expect(await slugs(server)).toEqual([]);
    server.open(spelt, short);
    expect(await slugs(server)).toContain("nail-unlisted");
    server.notify("textDocument/didClose", { textDocument: { uri: spelt } });
    expect(await slugs(server)).toEqual([]);
  });

  test("and out of step with the editor it counts for nothing", async () => {
    const server = await start();
    server.open(uri, sampleText(plan));
    server.open(catalogue, short, 5);
    server.notify("textDocument/didChange", {
      textDocument: { uri: catalogue, version: 4 },
      contentChanges: [{ text: "" }],
    });
    expect(await slugs(server)).toContain("file-missing");
  });
});

describe("names an editor may give a text", () => {
  test.each([
    "untitled:Untitled-1",
    "file://elsewhere/a/b.isthmus",
    "vscode-vfs://github/a/b.isthmus",
    "file:///a%2Fb.isthmus",
  ])("%s has answers, and says that its imports are not read", async (name) => {
    const server = await start();
    server.open(name, sampleText(plan));
    expect(await slugs(server, name)).toContain("file-missing");
  });
});

describe("what the client can show", () => {
  const text = sampleWith(plan, ["    wire ball-tip\n", "    \n"]);
  const blank = positionOf(text, text.indexOf("    \n") + 4, "utf-16");

  test("places to fill in only where it has them", async () => {
    const plain = await start();
    plain.open(uri, text);
    expect(
      (await asked<Offer[]>(plain, "completion", blank)).every(({ insertTextFormat }) => insertTextFormat === 1),
    ).toBe(true);
    plain.kill();
    const able = await start("utf-16", { completion: { completionItem: { snippetSupport: true } } });
    able.open(uri, text);
    const offers = await asked<Offer[]>(able, "completion", blank);
    expect(offers.find(({ label }) => label === "wire")?.textEdit.newText).toContain("|ball-tip,smooth|");
  });

  test("Markdown unless it says that it has none", async () => {
    const kinds = async (capabilities: object): Promise<string> => {
      const server = await start("utf-16", capabilities);
      server.open(uri, text);
      const at = positionOf(text, text.indexOf("reduce closed"), "utf-16");
      const hover = await asked<{ contents: { kind: string } }>(server, "hover", at);
      server.kill();
      return hover.contents.kind;
    };
    expect(await kinds({})).toBe("markdown");
    expect(await kinds({ hover: { contentFormat: ["markdown", "plaintext"] } })).toBe("markdown");
    expect(await kinds({ hover: { contentFormat: ["plaintext"] } })).toBe("plaintext");
  });
});
