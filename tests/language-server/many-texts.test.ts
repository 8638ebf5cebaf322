/** More open texts than the server keeps analysed: each is answered about, the ones long not asked about too. */
import { pathToFileURL } from "node:url";
import { afterEach, expect, test } from "vitest";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const plan = sampleText("plans/simple-shaft.isthmus");

let client: ProtocolClient | undefined;
afterEach(() => client?.kill());

test("sixty open plans", async () => {
  client = new ProtocolClient();
  const server = client;
  await server.initialize({ textDocument: { diagnostic: {} } }, samples);
  const uris = Array.from({ length: 60 }, (_, at) => `${samples}/plans/open-${at}.isthmus`);
  const symbolsOf = (uri: string) => server.request<unknown>("textDocument/documentSymbol", { textDocument: { uri } });
  const first: string[] = [];
  for (const [at, uri] of uris.entries()) {
    server.open(uri, plan.replace("Transverse fracture", `Transverse fracture ${at}`));
    first.push(JSON.stringify(await symbolsOf(uri)));
    expect(first[at]).toContain(`Transverse fracture ${at} `);
  }
  const again = [];
  for (const uri of uris) again.push(JSON.stringify(await symbolsOf(uri)));
  expect(again).toEqual(first);
  const found = await server.request<{ name: string }[]>("workspace/symbol", { query: "Transverse fracture" });
  expect(found.filter(({ name }) => /Transverse fracture \d/.test(name))).toHaveLength(uris.length);
});
