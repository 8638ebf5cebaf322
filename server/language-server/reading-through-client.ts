/**
 * Files read by the client, for a server that has no disk or a text that is not on it: each is asked for once, kept, and asked for
 * again when the client says that it changed. Until an answer is there an import is pending, never missing.
 */
import type { ImportedText } from "../answers/analyse.ts";
import { largestFile, resolveUri } from "../files/paths.ts";
import {
  type FileAnswer,
  type FileQuestion,
  type ListQuestion,
  listFilesMethod,
  readFileMethod,
} from "./own-requests.ts";
import type { Session } from "./server.ts";
import type { Files } from "./workspace.ts";

/** Asked for at once when the whole library is wanted. */
const filesAtOnce = 16;

/** A library of plans has hundreds; what is beyond this is a folder of something else. */
const mostFiles = 10_000;

export function filesThroughClient({ connection, folders, clientReads, clientLists, arrived }: Session): Files {
  const known = new Map<string, ImportedText>();
  const asked = new Map<string, Promise<void>>();
  let listed: readonly string[] = [];

  const ask = (uri: string, then: (uri: string) => void = arrived): Promise<void> => {
    const question: FileQuestion = { uri, largest: largestFile };
    const running = asked.get(uri);
    if (running !== undefined) return running;
    const asking = connection
      .sendRequest<FileAnswer>(readFileMethod, question)
      .then(
        (answer) => answerOf(uri, answer),
        (): ImportedText => ({ kind: "missing", because: "the editor did not read the file" }),
      )
      .then((text) => {
        asked.delete(uri);
        known.set(uri, text);
        then(uri);
      });
    asked.set(uri, asking);
    return asking;
  };

  /** Nothing waits for a file that is new; one that is no longer as it was read before has to be looked at anew. */
  const gathered = async (uri: string): Promise<void> => {
    const before = known.get(uri);
    await ask(uri, () => undefined);
    if (before !== undefined && !isSame(before, known.get(uri))) arrived(uri);
  };

  return {
    read: (from, path) => {
      if (!clientReads()) return { kind: "missing", because: "imports are read once this text is saved as a file" };
      const target = resolveUri(folders(), from, path);
      if (!("uri" in target)) return target;
      return known.get(target.uri) ?? { kind: "pending", arrives: ask(target.uri) };
    },
    gather: async (isWatched) => {
      if (!clientReads() || !clientLists()) return;
      const question: ListQuestion = { most: mostFiles };
      listed = await connection.sendRequest<readonly string[]>(listFilesMethod, question);
      // Where nobody tells of files that changed, what was read before may be old.
      const wanted = isWatched ? listed.filter((uri) => !known.has(uri)) : listed;
      for (let at = 0; at < wanted.length; at += filesAtOnce)
        await Promise.all(wanted.slice(at, at + filesAtOnce).map(gathered));
    },
    all: () => listed.filter((uri) => uri.endsWith(".isthmus")),
    text: (uri) => {
      const found = known.get(uri);
      return found?.kind === "read" ? found.text : undefined;
    },
    changed: (uris) => {
      // An answer that is under way may be of the file as it was.
      for (const uri of uris)
        if (known.has(uri) || asked.has(uri)) void Promise.resolve(asked.get(uri)).then(() => ask(uri));
    },
  };
}

function isSame(before: ImportedText, now: ImportedText | undefined): boolean {
  return before.kind === now?.kind && (before.kind !== "read" || now.kind !== "read" || before.text === now.text);
}

function answerOf(uri: string, answer: FileAnswer): ImportedText {
  if (!("text" in answer)) return { kind: answer.kind, because: answer.because };
  if (answer.text.length > largestFile) return { kind: "not-a-file", because: "it is too large" };
  return { kind: "read", file: uri, text: answer.text };
}
