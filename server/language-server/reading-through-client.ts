/**
 * Imports read by the client, for a server that has no disk or a text that is not on it: each is asked for once, kept, and asked for
 * again when the client says that it changed. Until an answer is there the import is pending, never missing.
 */
import type { ImportedText } from "../answers/analyse.ts";
import { largestFile, resolveUri } from "../files/paths.ts";
import { type FileAnswer, type FileQuestion, readFileMethod } from "./own-requests.ts";
import type { Session } from "./server.ts";
import type { Files } from "./workspace.ts";

export function filesThroughClient({ connection, folders, clientReads, arrived }: Session): Files {
  const known = new Map<string, ImportedText>();
  const asked = new Map<string, Promise<void>>();

  const ask = (uri: string): Promise<void> => {
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
        arrived();
      });
    asked.set(uri, asking);
    return asking;
  };

  return {
    read: (from, path) => {
      if (!clientReads()) return { kind: "missing", because: "imports are read once this text is saved as a file" };
      const target = resolveUri(folders(), from, path);
      if (!("uri" in target)) return target;
      return known.get(target.uri) ?? { kind: "pending", arrives: ask(target.uri) };
    },
    changed: (uris) => {
      // An answer that is under way may be of the file as it was.
      for (const uri of uris)
        if (known.has(uri) || asked.has(uri)) void Promise.resolve(asked.get(uri)).then(() => ask(uri));
    },
  };
}

function answerOf(uri: string, answer: FileAnswer): ImportedText {
  if (!("text" in answer)) return { kind: answer.kind, because: answer.because };
  if (answer.text.length > largestFile) return { kind: "not-a-file", because: "it is too large" };
  return { kind: "read", file: uri, text: answer.text };
}
