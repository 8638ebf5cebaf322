/** What a quick fix touches travels with it: its class, and never preferred where the writer has to choose. */
import { expect, test } from "vitest";
import { sampleText } from "../check.ts";
import { ProtocolClient } from "./client.ts";

const uri = "untitled:classes";
const text = sampleText("plans/simple-shaft.isthmus")
  .replace("fracture 42A3(b), from", "fracture 42-A3(b), from")
  .replace("ream 8.5 mm to 11 mm by", "ream 8.5 mm to 13 mm by")
  .replace("side right\n", "sied right\n");

interface Fix {
  readonly title: string;
  readonly isPreferred?: boolean;
  readonly data?: { readonly class: string };
}

test("a quick fix tells whether it keeps every decision, changes one or needs a choice", async () => {
  const client = new ProtocolClient(["server/command-line/start.ts", "serve", "--stdio"]);
  try {
    await client.initialize({ textDocument: { diagnostic: {} } });
    client.open(uri, text);
    const range = { start: { line: 0, character: 0 }, end: { line: text.split("\n").length, character: 0 } };
    const actions = await client.request<Fix[]>("textDocument/codeAction", {
      textDocument: { uri },
      range,
      context: { diagnostics: [], only: ["quickfix"] },
    });
    const fixes = actions.filter(({ data }) => data !== undefined);
    const classOf = (title: string) => fixes.find((fix) => fix.title.startsWith(title))?.data?.class;
    expect(classOf("42-A3(b) → 42A3(b)")).toBe("keeps every decision");
    expect(classOf("last head 13 mm →")).toBe("changes a decision");
    expect(classOf("Change `sied`")).toBe("needs a choice");
    expect(fixes.filter(({ data, isPreferred }) => data?.class === "needs a choice" && isPreferred === true)).toEqual(
      [],
    );
  } finally {
    client.kill();
  }
});
