/** The client's part in keeping the server's text its own, with an editor and a server of the test's own making. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { BaseLanguageClient } from "vscode-languageclient";
import { pause } from "../../client/comparing.ts";
import { keepSameText } from "../../client/same-text.ts";
import { sha256 } from "../../grammar/sha-256.ts";
import type { TextHashQuestion } from "../../server/language-server/own-requests.ts";

interface Text {
  text: string;
  version: number;
  readonly lineCount: number;
  readonly scheme: string;
  readonly uri: { toString(): string };
  getText(): string;
}

const editor = vi.hoisted(() => ({
  documents: [] as unknown[],
  changed: [] as ((event: { document: unknown }) => void)[],
}));

vi.mock("vscode", () => {
  const nothing = { dispose: (): void => undefined };
  return {
    Disposable: {
      from: (...all: readonly { dispose(): void }[]) => ({
        dispose: () => {
          for (const each of all) each.dispose();
        },
      }),
    },
    workspace: {
      get textDocuments() {
        return editor.documents;
      },
      onDidOpenTextDocument: () => nothing,
      onDidCloseTextDocument: () => nothing,
      onDidChangeTextDocument: (listener: (event: { document: unknown }) => void) => {
        editor.changed.push(listener);
        return nothing;
      },
    },
  };
});
vi.mock("vscode-languageclient", () => ({ State: { Stopped: 1, Running: 2, Starting: 3 } }));

function textOf(text: string, scheme = "file"): Text {
  const uri = `${scheme}:///plan.isthmus`;
  return {
    text,
    version: 1,
    lineCount: 1,
    scheme,
    uri: { toString: () => uri },
    getText(): string {
      return this.text;
    },
  };
}

/** A server that holds `held`, and what reached it. */
let held: string | undefined;
let asked: TextHashQuestion[] = [];
let sent: string[] = [];
let logged: string[] = [];
const client = {
  state: 2,
  warn: (message: string) => logged.push(message),
  onDidChangeState: () => ({ dispose: () => undefined }),
  getFeature: (method: string) => ({
    getProvider: (document: Text) =>
      document.scheme === "file"
        ? {
            send: (each: Text) => {
              sent.push(method);
              held = method.endsWith("didOpen") ? each.text : undefined;
            },
          }
        : undefined,
  }),
  sendRequest: (_method: string, question: TextHashQuestion) => {
    asked.push(question);
    const same = held !== undefined && question.held?.sha256 === sha256(held);
    return Promise.resolve(held === undefined ? null : { version: 1, sha256: sha256(held), inStep: same });
  },
} as unknown as BaseLanguageClient;

let kept: { dispose(): unknown };
beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  [asked, sent, logged] = [[], [], []];
  kept = keepSameText(client);
});
afterEach(() => {
  kept.dispose();
  vi.useRealTimers();
  editor.changed.length = 0;
});

const ofTheMachine = setTimeout;

async function typed(document: Text, text = document.text): Promise<void> {
  document.text = text;
  document.version += 1;
  editor.documents = [document];
  for (const listener of editor.changed) listener({ document });
  // What the platform's digest takes is no timer: it is waited for in the time of the machine.
  for (let turn = 0; turn < 3; turn += 1) {
    await vi.advanceTimersByTimeAsync(pause);
    await new Promise((resolve) => ofTheMachine(resolve, 50));
  }
}

test("a text that is the server's is asked about by its version and its hash, and left alone", async () => {
  held = "isthmus 1\n\n# ß ± 🦴\r\n";
  await typed(textOf(held));
  expect(asked).toEqual([{ uri: "file:///plan.isthmus", held: { version: 2, sha256: sha256(held) } }]);
  expect([sent, logged]).toEqual([[], []]);
});

test("one that differs is closed and opened again, and the log says nothing of it but its length", async () => {
  held = "isthmus 1\n";
  await typed(textOf("isthmus 1\n# more\n"));
  expect(sent).toEqual(["textDocument/didClose", "textDocument/didOpen"]);
  expect(held).toBe("isthmus 1\n# more\n");
  expect(logged).toEqual(["A text of 1 lines is not the server's: it is handed over again."]);
});

test("one that the server has not got is opened", async () => {
  held = undefined;
  await typed(textOf("isthmus 1\n"));
  expect(held).toBe("isthmus 1\n");
});

test("half a character, and a text that is not the server's to hold, are not asked about", async () => {
  held = "isthmus 1\n";
  await typed(textOf("isthmus \ud83e\n"));
  await typed(textOf("isthmus 2\n", "git"));
  expect([asked, sent]).toEqual([[], []]);
});
