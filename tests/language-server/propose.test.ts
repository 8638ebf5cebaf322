/** Proposals as code actions over real stdio: where they are offered, where they are not searched for, and what applying one gives. */
import { pathToFileURL } from "node:url";
import { afterEach, describe, expect, test } from "vitest";
import { linesOf } from "../../server/answers/lines.ts";
import { analyseText, sampleWith } from "../check.ts";
import { ProtocolClient } from "./client.ts";
import { applied, type TextEdit } from "./edits.ts";

const samples = pathToFileURL(`${import.meta.dirname}/../../samples`).href;
const uri = `${samples}/plans/checked.isthmus`;

interface Action {
  readonly title: string;
  readonly kind: string;
  readonly edit: { readonly documentChanges: readonly { readonly edits: readonly TextEdit[] }[] };
}

let client: ProtocolClient | undefined;
afterEach(() => client?.kill());

const text = sampleWith("plans/simple-shaft.isthmus", [
  "nail tarnbeck, diameter 10 mm, length 330 mm",
  "nail tarnbeck, diameter 12 mm, length 315 mm",
]);

async function actions(words: string, only?: readonly string[]): Promise<readonly Action[]> {
  client = new ProtocolClient();
  await client.initialize({ textDocument: { diagnostic: {} } }, samples);
  client.open(uri, text);
  const position = linesOf(text).position(text.indexOf(words));
  return client.request<Action[]>("textDocument/codeAction", {
    textDocument: { uri },
    range: { start: position, end: position },
    context: { diagnostics: [], ...(only === undefined ? {} : { only }) },
  });
}

function kindsOf(all: readonly Action[]): readonly string[] {
  return [...new Set(all.map(({ kind }) => kind))];
}

describe("proposals", () => {
  test("are told among the kinds of code actions", async () => {
    client = new ProtocolClient();
    const { capabilities } = await client.initialize({}, samples);
    expect(capabilities.codeActionProvider).toMatchObject({
      codeActionKinds: expect.arrayContaining(["quickfix", "refactor.rewrite"]),
    });
  });

  test.each(["nail tarnbeck", "ream 8.5 mm", "cap 5 mm"])("are offered at %s", async (words) => {
    const proposals = (await actions(words)).filter(({ kind }) => kind === "refactor.rewrite");
    expect(proposals.map(({ title }) => title)[0]).toBe(
      "Propose from the measures: nail 12 mm × 315 mm → 10 mm × 330 mm (margin 13.7 mm ± 2.6 mm, fits with more than 99 %)",
    );
    expect(proposals.filter(({ title }) => title.startsWith("Propose"))).toHaveLength(3);
  });

  test("are not searched for elsewhere, unless a client asks for refactorings", async () => {
    expect(kindsOf(await actions("side right"))).toEqual([]);
    for (const only of [["refactor"], ["refactor.rewrite"], [""]]) {
      expect(kindsOf(await actions("side right", only))).toContain("refactor.rewrite");
    }
    for (const only of [["quickfix"], ["source"], ["refactor.extract"], ["refactor.rewriteAll"]]) {
      expect(kindsOf(await actions("nail tarnbeck", only))).not.toContain("refactor.rewrite");
    }
    expect(kindsOf(await actions("nail tarnbeck", ["refactor"]))).toEqual(["refactor.rewrite"]);
  }, 120_000);

  test("applied, each gives a plan without an error that says what its title said", async () => {
    for (const action of await actions("nail tarnbeck", ["refactor.rewrite"])) {
      const after = analyseText(applied(text, action.edit.documentChanges[0]?.edits ?? []));
      expect(after.judgement.findings.filter(({ grade }) => grade === "error")).toEqual([]);
      const [, diameter, length] = /→ (\d+) mm × (\d+) mm/.exec(action.title) ?? [];
      expect(after.text).toContain(`nail tarnbeck, diameter ${diameter} mm, length ${length} mm, sunk 9 mm`);
    }
  });
});
