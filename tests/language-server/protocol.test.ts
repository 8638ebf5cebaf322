/** The bundled server over real stdio, as an editor speaks to it: every request it offers, and what it does with odd messages. */
import { pathToFileURL } from "node:url";
import { afterEach, describe, expect, test } from "vitest";
import { linesOf } from "../../server/answers/lines.ts";
import { sampleText, sampleWith } from "../check.ts";
import { ProtocolClient, speaksToWorker } from "./client.ts";
import { applied, type Position, positionOf, type TextEdit } from "./edits.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const pulling = { textDocument: { diagnostic: {} } };

interface Diagnostic {
  readonly code: string;
  readonly message: string;
  readonly severity: number;
  readonly range: { readonly start: Position; readonly end: Position };
}

let client: ProtocolClient | undefined;
afterEach(() => client?.kill());

async function start(capabilities: object = pulling): Promise<ProtocolClient> {
  client = new ProtocolClient();
  await client.initialize(capabilities, samples);
  return client;
}

async function diagnostics(server: ProtocolClient, of = uri): Promise<readonly Diagnostic[]> {
  const report = await server.request<{ items: Diagnostic[] }>("textDocument/diagnostic", {
    textDocument: { uri: of },
  });
  return report.items;
}

const overshot = sampleWith("plans/simple-shaft.isthmus", ["ream 8.5 mm to 11 mm", "ream 8.5 mm to 13 mm"]);

describe("answers", () => {
  test("a reaming overshoot is a diagnostic at its step, with a fix that removes it", async () => {
    const server = await start();
    server.open(uri, overshot);
    const found = (await diagnostics(server)).filter(({ code }) => code === "reaming-overshoot");
    expect(found).toHaveLength(1);
    const range = found[0]?.range;
    const actions = await server.request<{ title: string; edit: { documentChanges: { edits: TextEdit[] }[] } }[]>(
      "textDocument/codeAction",
      { textDocument: { uri }, range, context: { diagnostics: found } },
    );
    const fix = actions.find(({ edit }) => applied(overshot, edit.documentChanges[0]?.edits ?? []) !== overshot);
    const fixed = applied(overshot, fix?.edit.documentChanges[0]?.edits ?? []);
    server.notify("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ text: fixed }] });
    expect((await diagnostics(server)).map(({ code }) => code)).not.toContain("reaming-overshoot");
  });

  test("a clean sample has no diagnostics, and its catalogue is read from the folder", async () => {
    const server = await start();
    server.open(`${samples}/plans/simple-shaft.isthmus`, sampleText("plans/simple-shaft.isthmus"));
    expect(await diagnostics(server, `${samples}/plans/simple-shaft.isthmus`)).toEqual([]);
  });

  test("a hover fills the formula in", async () => {
    const text = sampleText("plans/simple-shaft.isthmus");
    const server = await start();
    server.open(uri, text);
    const hover = await server.request<{ contents: { value: string } }>("textDocument/hover", {
      textDocument: { uri },
      position: positionOf(text, "landmark scar", 10),
    });
    expect(hover.contents.value).toContain("352.7 mm ±");
    expect(hover.contents.value).toContain("level.scar");
  });

  test("completion offers the listed lengths with how they would fit", async () => {
    const text = sampleWith("plans/simple-shaft.isthmus", ["length 330 mm, sunk", "length , sunk"]);
    const server = await start();
    server.open(uri, text);
    const offers = await server.request<{ label: string; detail: string }[]>("textDocument/completion", {
      textDocument: { uri },
      position: positionOf(text, "length , sunk", 7),
    });
    expect(offers.find(({ label }) => label === "330 mm")?.detail).toMatch(/tip to scar 13\.7 mm/);
  });

  test("symbols carry the values", async () => {
    const server = await start();
    server.open(uri, sampleText("plans/simple-shaft.isthmus"));
    const symbols = await server.request<unknown>("textDocument/documentSymbol", { textDocument: { uri } });
    expect(JSON.stringify(symbols)).toContain('"name":"landmark scar","detail":"at 352.7 mm ± 2.6 mm"');
  });

  test("inlay hints stand at the end of the deciding lines", async () => {
    const text = sampleText("plans/simple-shaft.isthmus");
    const server = await start();
    server.open(uri, text);
    const end = linesOf(text).position(text.length);
    const hints = await server.request<{ label: string; position: Position }[]>("textDocument/inlayHint", {
      textDocument: { uri },
      range: { start: { line: 0, character: 0 }, end },
    });
    const ream = positionOf(text, "ream 8.5 mm to 11 mm by 0.5 mm", "ream 8.5 mm to 11 mm by 0.5 mm".length);
    expect(hints.find(({ position }) => position.line === ream.line)).toMatchObject({
      label: "1 mm over the nail",
      position: ream,
    });
  });

  test("formatting brings a badly laid out text back", async () => {
    const tidy = sampleText("plans/simple-shaft.isthmus");
    const untidy = tidy.replace(/^ {4}/gm, "  \t   ").replaceAll(" mm", "mm");
    const server = await start();
    server.open(uri, untidy);
    const edits = await server.request<TextEdit[]>("textDocument/formatting", {
      textDocument: { uri },
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(applied(untidy, edits)).toBe(tidy);
  });

  test("a hole is defined in the catalogue", async () => {
    const text = sampleText("plans/simple-shaft.isthmus");
    const server = await start();
    server.open(uri, text);
    const place = await server.request<{ uri: string; range: TextEdit["range"] }>("textDocument/definition", {
      textDocument: { uri },
      position: positionOf(text, "lock D2", 6),
    });
    expect(place.uri).toBe(`${samples}/catalogue/tarnbeck.isthmus`);
    const catalogue = sampleText("catalogue/tarnbeck.isthmus");
    expect(linesOf(catalogue).text(place.range.start.line)).toContain("hole D2");
  });

  test("an open catalogue counts before the one on the disk", async () => {
    const server = await start();
    server.open(uri, sampleText("plans/simple-shaft.isthmus"));
    expect(await diagnostics(server)).toEqual([]);
    const catalogue = sampleText("catalogue/tarnbeck.isthmus").replace(
      "lengths 240 mm to 420 mm",
      "lengths 240 mm to 315 mm",
    );
    server.open(`${samples}/catalogue/tarnbeck.isthmus`, catalogue);
    expect((await diagnostics(server)).map(({ code }) => code)).toContain("nail-unlisted");
  });
});

describe("the protocol's rules", () => {
  test("a client that cannot pull gets diagnostics pushed", async () => {
    const server = await start({});
    server.open(uri, overshot);
    await server.request("textDocument/hover", { textDocument: { uri }, position: { line: 0, character: 0 } });
    expect(JSON.stringify(server.pushed)).toContain("reaming-overshoot");
  });

  test("positions are utf-16 by default and utf-8 when that is all the client has", async () => {
    const text = overshot.replace("Transverse", "🦴 Quer-é ");
    const line = linesOf(text).position(text.indexOf("ream 8.5")).line;
    for (const encodings of [undefined, ["utf-8"]]) {
      const server = await start({ ...pulling, general: { positionEncodings: encodings } });
      server.open(uri, text);
      expect((await diagnostics(server)).find(({ code }) => code === "reaming-overshoot")?.range.start.line).toBe(line);
      server.notify("textDocument/didChange", {
        textDocument: { uri, version: 2 },
        contentChanges: [{ range: rangeAfterBone(text, encodings === undefined), text: "x" }],
      });
      const symbols = await server.request<{ name: string }[]>("textDocument/documentSymbol", {
        textDocument: { uri },
      });
      expect(symbols[0]?.name).toContain("🦴xQuer-é");
      server.kill();
    }
  });

  test("a change with an old version is out of step: numbers are withheld until the text is opened again", async () => {
    const server = await start();
    server.open(uri, overshot, 5);
    server.notify("textDocument/didChange", { textDocument: { uri, version: 4 }, contentChanges: [{ text: "" }] });
    expect((await diagnostics(server)).map(({ code }) => code)).toEqual(["out-of-step"]);
    expect(
      await server.request("textDocument/hover", { textDocument: { uri }, position: { line: 9, character: 9 } }),
    ).toBeNull();
    server.notify("textDocument/didClose", { textDocument: { uri } });
    server.open(uri, overshot, 6);
    expect((await diagnostics(server)).map(({ code }) => code)).toContain("reaming-overshoot");
  });

  test.each([-1, 1e9, 2 ** 31, 0.5])("a position of %d is answered without a fault", async (odd) => {
    const server = await start();
    server.open(uri, overshot);
    const position = { line: odd, character: odd };
    for (const method of ["hover", "completion", "definition"]) {
      await server.request(`textDocument/${method}`, { textDocument: { uri }, position });
    }
    expect((await diagnostics(server)).length).toBeGreaterThan(0);
  });

  test("a text that is not open has no answers", async () => {
    const server = await start();
    const hover = await server.request("textDocument/hover", {
      textDocument: { uri },
      position: { line: 0, character: 0 },
    });
    expect(hover).toBeNull();
    expect(await diagnostics(server)).toEqual([]);
  });

  test.skipIf(speaksToWorker())("shutdown then exit ends with 0, exit alone with 1", async () => {
    const polite = await start();
    expect(await polite.close()).toBe(0);
    const rude = await start();
    rude.notify("exit", null);
    expect(await rude.exited).toBe(1);
  });
});

function rangeAfterBone(text: string, utf16: boolean): TextEdit["range"] {
  const at = text.indexOf("🦴") + "🦴".length;
  const { line, character } = linesOf(text).position(at);
  const before = linesOf(text).text(line).slice(0, character);
  const start = utf16 ? character : Buffer.byteLength(before, "utf8");
  return { start: { line, character: start }, end: { line, character: start + 1 } };
}
