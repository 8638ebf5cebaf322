/** The bundled server over stdio: colours, folds, selections, links, signatures, lenses, layout of parts, refactorings, what feeds what. */
import { pathToFileURL } from "node:url";
import { afterEach, describe, expect, test } from "vitest";
import { linesOf } from "../../server/answers/lines.ts";
import { tokenModifiers, tokenTypes } from "../../server/answers/semantic-tokens.ts";
import { sampleText, sampleWith } from "../check.ts";
import { ProtocolClient } from "./client.ts";
import { applied, positionOf as at, type Position, type Range, type TextEdit } from "./edits.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const path = "plans/simple-shaft.isthmus";
const plan = sampleText(path);
const here = { textDocument: { uri } };

interface Action {
  readonly title: string;
  readonly kind: string;
  readonly edit: { readonly documentChanges: readonly { readonly edits: readonly TextEdit[] }[] };
}

let client: ProtocolClient | undefined;
afterEach(() => client?.kill());

async function start(text = plan, capabilities: object = {}): Promise<ProtocolClient> {
  client = new ProtocolClient();
  await client.initialize({ textDocument: { diagnostic: {} }, ...capabilities }, samples);
  client.open(uri, text);
  return client;
}

function rangeOf(text: string, words: string): Range {
  return { start: at(text, words), end: at(text, words, words.length) };
}

function actedOn(text: string, action: Action | undefined): string {
  return applied(text, action?.edit.documentChanges[0]?.edits ?? []);
}

describe("textDocument/foldingRange", () => {
  interface Fold {
    readonly startLine: number;
    readonly endLine: number;
    readonly collapsedText?: string;
  }
  test("a block folds to what it holds, where the client shows that", async () => {
    const folding = { textDocument: { foldingRange: { foldingRange: { collapsedText: true } } } };
    const server = await start(plan, folding);
    const folds = await server.request<Fold[]>("textDocument/foldingRange", here);
    const operation = folds.find(({ startLine }) => startLine === at(plan, "operation {").line);
    expect(operation?.collapsedText).toBe(" 15 steps, tip at 339 mm ");
    expect(operation?.endLine).toBe(at(plan, "  aftercare {").line - 3);
    server.kill();
    const plainly = await start();
    const plainFolds = await plainly.request<Fold[]>("textDocument/foldingRange", here);
    expect(plainFolds).toHaveLength(folds.length);
    expect(plainFolds.every(({ collapsedText }) => collapsedText === undefined)).toBe(true);
  });
});

test("textDocument/selectionRange grows from a number to the whole text", async () => {
  interface Nested {
    readonly range: Range;
    readonly parent?: Nested;
  }
  const server = await start();
  const [found] = await server.request<Nested[]>("textDocument/selectionRange", {
    ...here,
    positions: [at(plan, "drilled 32 mm", 9)],
  });
  const texts: string[] = [];
  for (let each: Nested | undefined = found; each !== undefined; each = each.parent) {
    const lines = linesOf(plan);
    texts.push(plan.slice(lines.offset(each.range.start), lines.offset(each.range.end)));
  }
  expect(texts.slice(0, 4)).toEqual(["32", "32 mm", "drilled 32 mm", "lock D2, drilled 32 mm, screw 34 mm"]);
  expect(texts.at(-1)).toBe(plan);
});

describe("textDocument/semanticTokens", () => {
  interface Tokens {
    readonly resultId: string;
    readonly data: readonly number[];
    readonly edits?: readonly { readonly start: number; readonly deleteCount: number; readonly data?: number[] }[];
  }

  function read(text: string, data: readonly number[], bytes = false): string[] {
    const lines = linesOf(text);
    const found: string[] = [];
    let [line, character] = [0, 0];
    for (let index = 0; index < data.length; index += 5) {
      const [down = 0, along = 0, length = 0, type = 0, bits = 0] = data.slice(index, index + 5);
      [line, character] = [line + down, down === 0 ? character + along : along];
      const row = lines.text(line);
      const words = bytes
        ? Buffer.from(row)
            .subarray(character, character + length)
            .toString("utf8")
        : row.slice(character, character + length);
      const modifiers = tokenModifiers.filter((_, bit) => (bits & (1 << bit)) !== 0);
      found.push([`${words} ${tokenTypes[type]}`, ...modifiers].join(" "));
    }
    return found;
  }

  test("full tells every word by its meaning", async () => {
    const server = await start();
    const { data } = await server.request<Tokens>("textDocument/semanticTokens/full", here);
    const found = read(plan, data);
    for (const token of [
      "operation keyword",
      "lock keyword",
      "D2 class readonly",
      "drilled property",
      "32 number",
      "mm type",
      "scar variable declaration",
      "ap namespace declaration",
      "ap namespace",
      "antibiotic enumMember",
      "42A3(b) enumMember",
      "on operator",
    ])
      expect(found).toContain(token);
  });

  test("delta is what turns the one into the other, range is a part of the whole", async () => {
    const server = await start();
    const first = await server.request<Tokens>("textDocument/semanticTokens/full", here);
    const changed = plan.replace("sunk 9 mm", "sunk 9.25 mm").replace("cap 5 mm", "cap none");
    server.notify("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ text: changed }] });
    const delta = await server.request<Tokens>("textDocument/semanticTokens/full/delta", {
      ...here,
      previousResultId: first.resultId,
    });
    const data = [...first.data];
    for (const edit of delta.edits ?? []) data.splice(edit.start, edit.deleteCount, ...(edit.data ?? []));
    const whole = await server.request<Tokens>("textDocument/semanticTokens/full", here);
    expect(delta.edits?.length).toBe(1);
    expect(data).toEqual(whole.data);
    const unknown = await server.request<Tokens>("textDocument/semanticTokens/full/delta", {
      ...here,
      previousResultId: "none",
    });
    expect(unknown.data).toEqual(whole.data);
    const part = await server.request<Tokens>("textDocument/semanticTokens/range", {
      ...here,
      range: rangeOf(changed, "cap none"),
    });
    expect(read(changed, part.data)).toEqual(["cap keyword", "none enumMember"]);
  });

  test("utf-8 counts bytes, and a text over several lines is cut at them unless the client takes it whole", async () => {
    const text = plan.replace('summary "Reamed', 'summary """\n    🦴 é Reamed').replace('gap."', 'gap.\n    """');
    const server = await start(text, { general: { positionEncodings: ["utf-8"] } });
    const { data } = await server.request<Tokens>("textDocument/semanticTokens/full", here);
    const found = read(text, data, true);
    expect(found).toContain('""" string');
    expect(found.some((token) => token.includes("🦴 é Reamed locked nail"))).toBe(true);
    server.kill();
    const whole = await start(text, { textDocument: { semanticTokens: { multilineTokenSupport: true } } });
    const uncut = await whole.request<Tokens>("textDocument/semanticTokens/full", here);
    expect(uncut.data.length).toBeLessThan(data.length);
  });
});

describe("textDocument/documentLink", () => {
  interface Link {
    readonly range: Range;
    readonly target?: string;
    readonly data?: unknown;
  }
  test("paths lead to files; a citation is looked for when it is asked for", async () => {
    const text = sampleWith(
      path,
      ["  status for-review\n", '  sources "../none.bib"\n'],
      ["Chatter", "[@one] Chatter"],
    );
    const server = await start(text);
    const links = await server.request<Link[]>("textDocument/documentLink", here);
    expect(links.map(({ target }) => target)).toEqual([
      `${samples}/catalogue/tarnbeck.isthmus`,
      `${samples}/protocol/ellerby.isthmus`,
      `${samples}/none.bib`,
      undefined,
    ]);
    const resolved = await server.request<Link>("documentLink/resolve", links[3]);
    expect(resolved.target).toBe(`${samples}/none.bib`);
  });
});

describe("textDocument/signatureHelp", () => {
  interface Help {
    readonly activeParameter: number;
    readonly signatures: readonly {
      readonly label: string;
      readonly parameters: readonly { readonly label: [number, number] }[];
    }[];
  }
  const active = ({ signatures: [signature], activeParameter }: Help): string | undefined => {
    const [from, to] = signature?.parameters[activeParameter]?.label ?? [0, 0];
    return signature?.label.slice(from, to);
  };
  test("of a statement and of a function", async () => {
    const text = sampleWith(path, ["sunk 9 mm", "sunk round-down(9 mm, 1 mm)"]);
    const server = await start(text);
    const ask = (words: string, within: number): Promise<Help> =>
      server.request("textDocument/signatureHelp", { ...here, position: at(text, words, within) });
    const lock = await ask("lock D2, drilled 32 mm", 17);
    expect(lock.signatures[0]?.label).toMatch(/^lock hole, /);
    expect(active(lock)).toContain("drilled");
    const round = await ask("round-down(9 mm, 1 mm)", 17);
    expect(round.signatures[0]?.label).toBe("round-down(value, step)");
    expect(active(round)).toBe("step");
    expect(await ask("## Chatter", 4)).toBeNull();
  });
});

describe("textDocument/codeLens", () => {
  const overshot = sampleWith(path, ["ream 8.5 mm to 11 mm", "ream 8.5 mm to 13 mm"]);
  interface Lens {
    readonly command: { readonly title: string; readonly command: string; readonly arguments: unknown[] };
  }

  test("how many findings there are, and a way to the gravest, for a client that can go there", async () => {
    const server = await start(overshot, { window: { showDocument: { support: true } } });
    const [lens] = await server.request<Lens[]>("textDocument/codeLens", here);
    expect(lens?.command.title).toMatch(/^1 (error|warning)/);
    await server.request("workspace/executeCommand", lens?.command);
    const shown = server.pushed.find(({ method }) => method === "window/showDocument");
    expect(shown?.params).toMatchObject({ uri, takeFocus: true });
    expect(JSON.stringify(shown?.params)).toContain(`"line":${at(overshot, "ream 8.5 mm to 13 mm").line}`);
  });

  test("none without findings; a client that can show nothing is promised none", async () => {
    const server = await start(plan, { window: { showDocument: { support: true } } });
    expect(await server.request("textDocument/codeLens", here)).toEqual([]);
    server.kill();
    client = new ProtocolClient();
    const { capabilities } = await client.initialize({}, samples);
    expect(capabilities).not.toHaveProperty("codeLensProvider");
    expect(capabilities).not.toHaveProperty("executeCommandProvider");
  });
});

describe("layout of a part", () => {
  const untidy = plan.replace("    cap 5 mm\n", "  cap   5mm\n").replace("    side right\n", "  side   right\n");

  test("textDocument/rangeFormatting and textDocument/rangesFormatting touch their lines alone", async () => {
    const server = await start(untidy);
    const options = { tabSize: 2, insertSpaces: true };
    const range = rangeOf(untidy, "cap   5mm");
    const one = await server.request<TextEdit[]>("textDocument/rangeFormatting", { ...here, range, options });
    expect(applied(untidy, one)).toBe(untidy.replace("  cap   5mm\n", "    cap 5 mm\n"));
    const ranges = [range, rangeOf(untidy, "side   right")];
    const both = await server.request<TextEdit[]>("textDocument/rangesFormatting", { ...here, ranges, options });
    expect(applied(untidy, both)).toBe(plan);
  });

  test("textDocument/onTypeFormatting lays the finished line out", async () => {
    const typed = plan.replace("    cap 5 mm\n", "   cap 5mm\n    \n");
    const server = await start(typed);
    const edits = await server.request<TextEdit[]>("textDocument/onTypeFormatting", {
      ...here,
      position: at(typed, "cap 5mm\n    ", 12),
      ch: "\n",
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(applied(typed, edits)).toBe(plan.replace("    cap 5 mm\n", "    cap 5 mm\n    \n"));
  });
});

describe("textDocument/codeAction", () => {
  const ask = (server: ProtocolClient, range: Range, ...only: string[]): Promise<Action[]> =>
    server.request("textDocument/codeAction", { ...here, range, context: { diagnostics: [], only } });

  test("refactorings by kind", async () => {
    const server = await start();
    const range = { start: at(plan, "sunk 9 mm", 5), end: at(plan, "sunk 9 mm", 9) };
    const [named] = await ask(server, range, "refactor.extract");
    expect(actedOn(plan, named)).toContain("    let nail-tarnbeck-sunk = 9 mm\n    nail tarnbeck");
    const rewrites = await ask(server, rangeOf(plan, "8.5 mm to 11 mm by 0.5 mm"), "refactor.rewrite");
    expect(rewrites.map(({ title }) => title)).toContain(
      "Write the heads out: 8.5 mm, 9 mm, 9.5 mm, 10 mm, 10.5 mm, 11 mm",
    );
    expect(await ask(server, range, "refactor.inline")).toEqual([]);
  });

  test("a cursor that passes by a long text is offered no more than fixes", async () => {
    const long = plan.replace("\n  case ", `\n${"  # a line that says nothing\n".repeat(2000)}\n  case `);
    const server = await start(long);
    const range = { start: at(long, "sunk 9 mm", 5), end: at(long, "sunk 9 mm", 9) };
    const kinds = async (triggerKind: number): Promise<string[]> => {
      const asked = { ...here, range, context: { diagnostics: [], triggerKind } };
      return (await server.request<Action[]>("textDocument/codeAction", asked)).map(({ kind }) => kind);
    };
    expect(await kinds(2)).toEqual([]);
    expect(await kinds(1)).toContain("refactor.extract");
  });

  test("a waiver leaves its reason to the writer, and covers nothing until it is given", async () => {
    const text = sampleWith(path, ["    cap 5 mm\n", ""], ["    take cap\n", ""]);
    const server = await start(text);
    const report = await server.request<{ items: { code: string; range: Range }[] }>("textDocument/diagnostic", here);
    const missing = report.items.find(({ code }) => code === "cap-missing");
    if (missing === undefined) throw new Error("the cap is not missed");
    const actions = await ask(server, missing.range, "quickfix");
    const waiver = actions.find(({ title }) => title.startsWith("Waive"));
    expect(actedOn(text, waiver)).toMatch(/\n {2}waive cap-missing.*, because "", signed ""\n/);
  });

  test("a waived finding is a hint that says why and by whom", async () => {
    const text = sampleWith(
      path,
      ["drilled 32 mm, screw 34 mm", "drilled 32 mm, screw 40 mm"],
      ["  status for-review\n", '  waive screw-overlength at D2, because "no shorter one", signed "A. Sample"\n'],
    );
    const server = await start(text);
    const report = await server.request<{ items: { code: string; severity: number; message: string }[] }>(
      "textDocument/diagnostic",
      here,
    );
    const waived = report.items.find(({ code }) => code === "screw-overlength");
    expect(waived?.severity).toBe(4);
    expect(waived?.message).toMatch(/waived: no shorter one \(A\. Sample\)$/);
  });

  test("a review is sealed at its line, and only among the refactorings", async () => {
    const line = '  reviewed "the registrar", dated 2026-03-02, seal ""\n';
    const text = sampleWith(path, ["  status for-review\n", line]);
    const server = await start(text);
    const range = rangeOf(text, "reviewed");
    const [seal] = (await ask(server, range, "refactor.rewrite")).filter(({ title }) => title.startsWith("Seal"));
    expect(actedOn(text, seal)).toMatch(/seal "[0-9a-f]{16}"\n/);
    expect((await ask(server, range, "quickfix")).filter(({ title }) => title.startsWith("Seal"))).toEqual([]);
  });

  test("source.fixAll fixes what changes no decision, and is offered only when asked for", async () => {
    const text = plan.replace("42A3(b)", "42-A3(b)");
    const server = await start(text);
    const [all] = await ask(server, rangeOf(text, "42-A3(b)"), "source.fixAll");
    expect(all?.kind).toBe("source.fixAll.isthmus");
    expect(actedOn(text, all)).toBe(plan);
    const unasked = await server.request<Action[]>("textDocument/codeAction", {
      ...here,
      range: rangeOf(text, "42-A3(b)"),
      context: { diagnostics: [] },
    });
    expect(unasked.some(({ kind }) => kind.startsWith("source"))).toBe(false);
  });
});

test("textDocument/prepareCallHierarchy, callHierarchy/incomingCalls and callHierarchy/outgoingCalls", async () => {
  interface Item {
    readonly name: string;
    readonly detail: string;
  }
  const server = await start();
  const items = await server.request<Item[]>("textDocument/prepareCallHierarchy", {
    ...here,
    position: at(plan, "nail tarnbeck, diameter", 2),
  });
  expect(items.map(({ name }) => name)[0]).toMatch(/tip/);
  const out = await server.request<{ to: Item; fromRanges: Range[] }[]>("callHierarchy/outgoingCalls", {
    item: items[0],
  });
  expect(out.map(({ to }) => to.name)).toContain("nail tarnbeck, diameter 10 mm, length 330 mm, sunk 9 mm");
  const scar = await server.request<Item[]>("textDocument/prepareCallHierarchy", {
    ...here,
    position: at(plan, "landmark scar", 2),
  });
  const fed = await server.request<{ from: Item }[]>("callHierarchy/incomingCalls", { item: scar.at(-1) });
  expect(fed.map(({ from }) => from.name)).toEqual(expect.arrayContaining([expect.stringMatching(/scar/)]));
});

describe("textDocument/inlayHint", () => {
  const whole = { ...here, range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } } };
  interface Hint {
    readonly label: string | readonly { readonly value: string; readonly location?: { readonly uri: string } }[];
    readonly position: Position;
  }

  test("inlayHint/resolve tells where each number came from", async () => {
    const resolving = { textDocument: { inlayHint: { resolveSupport: { properties: ["label.location"] } } } };
    const server = await start(plan, resolving);
    const hints = await server.request<Hint[]>("textDocument/inlayHint", whole);
    const ream = hints.find(({ position }) => position.line === at(plan, "ream 8.5").line);
    const resolved = await server.request<Hint>("inlayHint/resolve", ream);
    expect(resolved.label).toMatchObject([{ value: "1 mm over the nail", location: { uri } }]);
  });

  test("settings switch kinds of hints by folder, and a change is followed", async () => {
    const server = await start(plan, { workspace: { configuration: true } });
    server.answer("workspace/configuration", [{ inlayHints: { reaming: false } }]);
    const labels = async (): Promise<string> =>
      JSON.stringify(await server.request<Hint[]>("textDocument/inlayHint", whole));
    expect(await labels()).not.toContain("over the nail");
    expect(await labels()).toContain("at 352.7 mm");
    const asked = server.pushed.find(({ method }) => method === "workspace/configuration");
    expect(asked?.params).toEqual({ items: [{ scopeUri: uri, section: "isthmus" }] });
    server.answer("workspace/configuration", [{ inlayHints: { enabled: true } }]);
    server.notify("workspace/didChangeConfiguration", { settings: null });
    expect(await labels()).toContain("over the nail");
  });
});

test("completionItem/resolve says which findings a size would bring", async () => {
  interface Item {
    readonly label: string;
    readonly documentation?: { readonly value: string };
  }
  const text = sampleWith(path, ["lock D1, drilled 36 mm, screw 38 mm", "lock D1, drilled 36 mm, screw "]);
  const server = await start(text);
  const items = await server.request<Item[]>("textDocument/completion", {
    ...here,
    position: at(text, "drilled 36 mm, screw ", 21),
  });
  const resolved = async (label: string): Promise<string | undefined> =>
    (
      await server.request<Item>(
        "completionItem/resolve",
        items.find((item) => item.label === label),
      )
    ).documentation?.value;
  expect(await resolved("38 mm")).toBe("With this no finding stands on the line.");
  expect(await resolved("60 mm")).toContain("screw-overlength");
});

test("textDocument/definition of a waived finding leads to the protocol's lines about it", async () => {
  const protocol = sampleText("protocol/ellerby.isthmus");
  const graded = /grade ([a-z-]+)/.exec(protocol)?.[1] ?? "none";
  const line = `  waive ${graded}, because "a", signed "b"\n`;
  const text = sampleWith(path, ["  status for-review\n", line]);
  const server = await start(text);
  const found = await server.request<{ uri: string } | { uri: string }[]>("textDocument/definition", {
    ...here,
    position: at(text, line, 9),
  });
  expect([found].flat()[0]?.uri).toBe(`${samples}/protocol/ellerby.isthmus`);
});

test("textDocument/diagnostic tags what nothing uses and what is old, for a client that shows it", async () => {
  const text = sampleWith(path, ["42A3(b)", "42-A3(b)"], ["  status for-review\n", "  let deep = 9 mm\n"]);
  const tagged = async (capabilities: object): Promise<string[]> => {
    const server = await start(text, capabilities);
    const { items } = await server.request<{ items: { code: string; tags?: number[] }[] }>(
      "textDocument/diagnostic",
      here,
    );
    server.kill();
    return items.filter(({ tags }) => tags !== undefined).map(({ code, tags }) => `${code} ${tags}`);
  };
  const showing = { textDocument: { diagnostic: {}, publishDiagnostics: { tagSupport: { valueSet: [1, 2] } } } };
  expect((await tagged(showing)).sort()).toEqual(["code-old-spelling 2", "name-unused 1"]);
  expect(await tagged({})).toEqual([]);
});

test("textDocument/definition of a citation leads to its entry", async () => {
  const cited = sampleText("plans/distal-end.isthmus");
  const server = await start(cited);
  const found = await server.request<{ uri: string; range: Range }>("textDocument/definition", {
    ...here,
    position: at(cited, "[@kneifel1996]", 4),
  });
  expect(found.uri).toBe(`${samples}/plans/distal-end.bib`);
  const bibliography = linesOf(sampleText("plans/distal-end.bib"));
  const { start: from, end } = found.range;
  expect(bibliography.text(from.line).slice(from.character, end.character)).toBe("kneifel1996");
});
