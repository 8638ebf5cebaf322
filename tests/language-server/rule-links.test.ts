/** Links of findings' codes: each rule's leads to its own heading on the page that is shipped. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { rules } from "../../server/findings/all.ts";
import { noRuleLink, ruleLinks } from "../../server/language-server/rule-links.ts";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const page = readFileSync(fileURLToPath(new URL("../../server/findings/FINDINGS.md", import.meta.url)), "utf8");
const link = ruleLinks("file:///page.md", page);

describe("the link of a rule", () => {
  test.each(rules.map(({ slug, title }) => [slug, title]))("%s", (slug, title) => {
    const [uri, line = ""] = (link(slug) ?? "").split("#L");
    expect(uri).toBe("file:///page.md");
    expect(page.split("\n")[Number(line) - 1]).toBe(`### ${title}`);
  });

  test("none for what the page does not tell of", () => {
    expect(link("out-of-step")).toBeUndefined();
    expect(link("coronal")).toBeUndefined();
    expect(ruleLinks("file:///page.md", "")("reaming-step")).toBeUndefined();
    expect(noRuleLink("reaming-step")).toBeUndefined();
  });
});

const reamed = sampleText("plans/simple-shaft.isthmus").replace("ream 8.5 mm to 11 mm by", "ream 8.5 mm to 13 mm by");
const uri = "untitled:reamed";

async function linksFor(words: readonly string[], diagnostic: object): Promise<readonly (string | undefined)[]> {
  const client = new ProtocolClient(words);
  try {
    await client.initialize({ textDocument: { diagnostic } });
    client.open(uri, reamed);
    const { items } = await client.request<{ items: { codeDescription?: { href: string } }[] }>(
      "textDocument/diagnostic",
      { textDocument: { uri } },
    );
    expect(items.length).toBeGreaterThan(0);
    return items.map(({ codeDescription }) => codeDescription?.href);
  } finally {
    client.kill();
  }
}

describe.each([
  ["as bundled", "dist/isthmus.js"],
  ["from its source", "server/command-line/start.ts"],
])("the server %s", (_, script) => {
  test("links each finding to a line of a file that is there", async () => {
    for (const link of await linksFor([script, "serve", "--stdio"], { codeDescriptionSupport: true })) {
      const [file = "", line = ""] = (link ?? "").split("#L");
      expect(readFileSync(fileURLToPath(file), "utf8").split("\n")[Number(line) - 1]).toMatch(/^### [A-Z]/);
    }
  });

  test("gives no link to a client that cannot open it", async () => {
    const links = await linksFor([script, "serve", "--stdio"], {});
    expect(links.filter((each) => each !== undefined)).toEqual([]);
  });
});
