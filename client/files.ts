/**
 * Files read for a server that cannot read them itself: one in a browser, or for a folder that is not on this machine's disk. Nothing
 * outside the open folders, no link, nothing but UTF-8 text of bounded size.
 */
import { Disposable, FileSystemError, FileType, Uri, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import {
  type FileAnswer,
  type FileQuestion,
  type ListQuestion,
  listFilesMethod,
  readFileMethod,
} from "../server/language-server/own-requests.ts";

/** To be handed to the server when it is started, so that it knows it may ask. */
export const readsFiles = { [readFileMethod]: true, [listFilesMethod]: true };

export function answerReads(client: BaseLanguageClient): Disposable {
  return Disposable.from(
    client.onRequest<FileAnswer, unknown>(readFileMethod, ({ uri, largest }: FileQuestion) =>
      read(Uri.parse(uri, true), largest),
    ),
    client.onRequest<readonly string[], unknown>(listFilesMethod, async ({ most }: ListQuestion) =>
      (await workspace.findFiles("**/*.{isthmus,bib}", undefined, most)).map((uri) => uri.toString()),
    ),
  );
}

async function read(file: Uri, largest: number): Promise<FileAnswer> {
  if (workspace.getWorkspaceFolder(file) === undefined)
    return { kind: "outside", because: "the path leaves the folders that are open" };
  try {
    const { type, size } = await workspace.fs.stat(file);
    if (type !== FileType.File) return { kind: "not-a-file", because: "it is not a regular file" };
    if (size > largest) return { kind: "not-a-file", because: `it is larger than ${largest / 1024 / 1024} MB` };
    return decoded(await workspace.fs.readFile(file));
  } catch (failure) {
    if (!(failure instanceof FileSystemError)) throw failure;
    return { kind: "missing", because: "there is no such file, or it may not be read" };
  }
}

function decoded(bytes: Uint8Array): FileAnswer {
  if (bytes.includes(0)) return { kind: "not-text", because: "it holds a NUL byte; plans are UTF-8 text" };
  try {
    return { text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return { kind: "not-text", because: "it is not UTF-8 text" };
  }
}
