/** Imports read through the client: asked for once, pending until they come, asked for again when they change. */
import { describe, expect, test } from "vitest";
import {
  type FileAnswer,
  type FileQuestion,
  type ListQuestion,
  listFilesMethod,
} from "../../server/language-server/own-requests.ts";
import { filesThroughClient } from "../../server/language-server/reading-through-client.ts";
import type { Session } from "../../server/language-server/server.ts";

const from = "memfs:/library/plans/a.isthmus";
const path = "../catalogue/b.isthmus";
const uri = "memfs:/library/catalogue/b.isthmus";

interface Asked extends FileQuestion {
  readonly answer: (answer: FileAnswer) => void;
  readonly fail: () => void;
}

function session(clientReads = true): {
  readonly files: ReturnType<typeof filesThroughClient>;
  readonly asked: Asked[];
  readonly arrivals: () => number;
} {
  const asked: Asked[] = [];
  let arrivals = 0;
  const connection = {
    sendRequest: (_method: string, question: FileQuestion) =>
      new Promise<FileAnswer>((answer, reject) => {
        asked.push({ ...question, answer, fail: () => reject(new Error("gone")) });
      }),
  } as unknown as Session["connection"];
  const files = filesThroughClient({
    connection,
    folders: () => ["memfs:/library"],
    clientReads: () => clientReads,
    clientLists: () => clientReads,
    arrived: () => {
      arrivals += 1;
    },
  });
  return { files, asked, arrivals: () => arrivals };
}

const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

describe("a file read through the client", () => {
  test("is pending until it comes, and asked for once", async () => {
    const { files, asked, arrivals } = session();
    const first = files.read(from, path);
    expect(first.kind).toBe("pending");
    expect(files.read(from, path).kind).toBe("pending");
    expect(asked.map((each) => each.uri)).toEqual([uri]);
    asked[0]?.answer({ text: "isthmus 1\n" });
    if (first.kind === "pending") await first.arrives;
    expect(files.read(from, path)).toEqual({ kind: "read", file: uri, text: "isthmus 1\n" });
    expect(arrivals()).toBe(1);
  });

  test.each([
    ["what the client says", { kind: "not-text", because: "it is not UTF-8 text" }],
    ["a text that is too large", { text: "#".repeat(4 * 1024 * 1024 + 1) }],
  ] as const)("is not read for %s", async (_why, answer) => {
    const { files, asked } = session();
    files.read(from, path);
    asked[0]?.answer(answer);
    await settled();
    expect(["not-text", "not-a-file"]).toContain(files.read(from, path).kind);
  });

  test("is missing when the client does not answer", async () => {
    const { files, asked } = session();
    files.read(from, path);
    asked[0]?.fail();
    await settled();
    expect(files.read(from, path)).toMatchObject({ kind: "missing" });
  });

  test("is asked for again when it changed, also while an answer is under way, and stays as it was until then", async () => {
    const { files, asked, arrivals } = session();
    files.read(from, path);
    files.changed?.([uri, "memfs:/library/never-read.isthmus"]);
    asked[0]?.answer({ text: "old" });
    await settled();
    expect(asked.map((each) => each.uri)).toEqual([uri, uri]);
    expect(files.read(from, path)).toMatchObject({ text: "old" });
    asked[1]?.answer({ text: "new" });
    await settled();
    expect(files.read(from, path)).toMatchObject({ text: "new" });
    expect(arrivals()).toBe(2);
  });

  test("is not asked for when it lies outside or the client reads none", () => {
    const { files, asked } = session();
    expect(files.read(from, "../../b.isthmus").kind).toBe("outside");
    expect(session(false).files.read(from, path)).toMatchObject({ kind: "missing" });
    expect(asked).toEqual([]);
  });
});

describe("a whole library read through the client", () => {
  /** A client with these files: `isthmus/listFiles` names them, `isthmus/readFile` gives their text. */
  function over(texts: Readonly<Record<string, string>>, lists = true) {
    const asked: string[] = [];
    const arrived: string[] = [];
    const connection = {
      sendRequest: (method: string, question: Partial<FileQuestion & ListQuestion>) => {
        asked.push(method === listFilesMethod ? `list ${question.most}` : `read ${question.uri}`);
        if (method === listFilesMethod) return Promise.resolve(Object.keys(texts));
        return Promise.resolve<FileAnswer>({ text: texts[question.uri ?? ""] ?? "" });
      },
    } as unknown as Session["connection"];
    const files = filesThroughClient({
      connection,
      folders: () => ["memfs:/library"],
      clientReads: () => true,
      clientLists: () => lists,
      arrived: (uri) => {
        arrived.push(uri);
      },
    });
    return { files, asked, arrived };
  }

  test("is listed and read when it is wanted, and only what is new the next time", async () => {
    const texts: Record<string, string> = { "memfs:/library/a.isthmus": "one", "memfs:/library/b.isthmus": "two" };
    const { files, asked, arrived } = over(texts);
    expect([files.all?.(), files.text?.("memfs:/library/a.isthmus")]).toEqual([[], undefined]);
    await files.gather?.(true);
    expect(files.all?.()).toEqual(Object.keys(texts));
    expect(files.text?.("memfs:/library/b.isthmus")).toBe("two");
    expect(asked).toEqual(["list 10000", "read memfs:/library/a.isthmus", "read memfs:/library/b.isthmus"]);
    texts["memfs:/library/c.isthmus"] = "three";
    await files.gather?.(true);
    expect(asked.slice(3)).toEqual(["list 10000", "read memfs:/library/c.isthmus"]);
    // Nothing waited for any of them.
    expect(arrived).toEqual([]);
  });

  test("is read again where nobody watches it, and only what differs is told of", async () => {
    const texts: Record<string, string> = { "memfs:/library/a.isthmus": "one", "memfs:/library/b.isthmus": "two" };
    const { files, asked, arrived } = over(texts);
    await files.gather?.(false);
    await files.gather?.(false);
    expect([asked.length, arrived]).toEqual([6, []]);
    texts["memfs:/library/a.isthmus"] = "other";
    await files.gather?.(false);
    expect(files.text?.("memfs:/library/a.isthmus")).toBe("other");
    expect(arrived).toEqual(["memfs:/library/a.isthmus"]);
  });

  test("is not asked for of a client that lists nothing", async () => {
    const { files, asked } = over({ "memfs:/library/a.isthmus": "one" }, false);
    await files.gather?.(true);
    expect([files.all?.(), asked]).toEqual([[], []]);
  });
});
