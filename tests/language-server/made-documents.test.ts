/** `workspace/textDocumentContent` and `isthmus/revisions`: documents made for reading, renewed with their text, never judged. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, expect, test } from "vitest";
import {
  type MadeDocument,
  madeDocumentOf,
  type RevisionsAnswer,
  readOnlyUri,
  revisionsMethod,
} from "../../server/language-server/own-requests.ts";
import { sampleText } from "../check.ts";
import { ProtocolClient, speaksToWorker } from "./client.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;
const plan = sampleText("plans/simple-shaft.isthmus");
const shows = { textDocument: { diagnostic: {} }, workspace: { textDocumentContent: {} } };
const refresh = "workspace/textDocumentContent/refresh";

let client: ProtocolClient | undefined;
afterEach(() => client?.kill());

async function start(folder = samples, options: object = {}): Promise<ProtocolClient> {
  client = new ProtocolClient();
  await client.initialize(shows, folder, options);
  return client;
}

async function textOf(server: ProtocolClient, made: MadeDocument): Promise<string> {
  const { text } = await server.request<{ text: string }>("workspace/textDocumentContent", { uri: readOnlyUri(made) });
  return text;
}

test("a URI says what it asks for, whatever the names hold", () => {
  const made = [
    { kind: "printed", of: "file:///a%20b/plan%3F%23.isthmus" },
    { kind: "revision", of: "file:///plan.isthmus", revision: "origin/main~1" },
  ] as const;
  for (const each of made) expect(madeDocumentOf(readOnlyUri(each))).toEqual(each);
  expect(readOnlyUri(made[1])).not.toContain("main~1).isthmus/");
  for (const none of [
    "file:///plan.isthmus",
    "isthmus-read-only:/x",
    "isthmus-read-only:/x?%7B%7D",
    "isthmus-read-only:/x?%",
  ])
    expect(madeDocumentOf(none)).toBeUndefined();
});

test("as printed and expanded, and asked for anew when the text changes", async () => {
  const server = await start();
  const made = { kind: "printed", of: uri } as const;
  expect(await textOf(server, made)).toContain("checked.isthmus is not open");
  server.open(uri, plan);
  expect(await textOf(server, made)).toContain("# → 1 mm over the nail");
  expect(await textOf(server, { kind: "expanded", of: uri })).toContain("# Limits in force:");
  expect(server.pushed.filter(({ method }) => method === refresh).map(({ params }) => params)).toEqual([
    { uri: readOnlyUri(made) },
  ]);
  const changed = plan.replace("to 11 mm by", "to 12 mm by");
  server.notify("textDocument/didChange", {
    textDocument: { uri, version: 2 },
    contentChanges: [{ text: changed }],
  });
  expect(await textOf(server, made)).toContain("# → 2 mm over the nail");
  expect(server.pushed.filter(({ method }) => method === refresh)).toHaveLength(3);
});

test("a document made for reading gets no findings of its own", async () => {
  const server = await start();
  server.open(uri, plan);
  const made = readOnlyUri({ kind: "expanded", of: uri });
  server.open(made, "plan {\n");
  server.notify("textDocument/didChange", { textDocument: { uri: made, version: 1 }, contentChanges: [{ text: "x" }] });
  const report = await server.request<{ items: unknown[] }>("textDocument/diagnostic", { textDocument: { uri: made } });
  expect(report.items).toEqual([]);
  server.notify("textDocument/didClose", { textDocument: { uri: made } });
  const none = await server.request<{ text: string }>("workspace/textDocumentContent", { uri: "isthmus-read-only:/x" });
  expect(none.text).toContain("There is no such document.");
});

test.skipIf(speaksToWorker())("at a revision, once the folder is trusted", async () => {
  const folder = mkdtempSync(join(tmpdir(), "isthmus-made-"));
  try {
    const git = (...words: string[]): unknown =>
      execFileSync("git", ["-c", "user.name=A", "-c", "user.email=a@example.org", ...words], { cwd: folder });
    git("init", "-q");
    const file = join(folder, "plan.isthmus");
    for (const text of ["isthmus 1\n", "isthmus 1\n\n"]) {
      writeFileSync(file, text);
      git("add", ".");
      git("commit", "-q", "-m", `${text.length} characters`);
    }
    const of = pathToFileURL(file).href;
    const root = pathToFileURL(folder).href;
    const made = { kind: "revision", of, revision: "HEAD~1" } as const;
    const doubtful = await start(root);
    expect(await textOf(doubtful, made)).toMatch(/^# plan\.isthmus at HEAD~1 cannot be shown: .*trusted/);
    expect(await doubtful.request<RevisionsAnswer>(revisionsMethod, { uri: of })).toHaveProperty("because");
    doubtful.kill();
    const trusting = await start(root, { [revisionsMethod]: true });
    expect(await textOf(trusting, made)).toBe("isthmus 1\n");
    expect(await textOf(trusting, { ...made, of: uri })).toContain("outside the open folders");
    expect(await trusting.request<RevisionsAnswer>(revisionsMethod, { uri: of })).toMatchObject({
      revisions: [{ subject: "11 characters" }, { subject: "10 characters" }],
    });
    expect(await trusting.request<RevisionsAnswer>(revisionsMethod, { uri })).toHaveProperty("because");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
