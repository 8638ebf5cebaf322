/** The desktop entry: the server over standard input and output, with imports read from the disk inside the workspace's folders. */
import { fileURLToPath, pathToFileURL } from "node:url";
import {
  createConnection,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import type { ImportedText } from "../answers/analyse.ts";
import { isInside, libraryRoot, readInside } from "../files/disk.ts";
import { startServer } from "./server.ts";

/** Starts the server; the process ends when the client says so, goes away, or sends bytes in which no message can be found. */
export function serveOverStdio(): void {
  const reader = new StreamMessageReader(process.stdin);
  const connection = createConnection(ProposedFeatures.all, reader, new StreamMessageWriter(process.stdout));
  const { isShutDown } = startServer(connection, readerFor);
  process.stdin.once("end", () => process.exit(isShutDown() ? 0 : 1));
  reader.onError((error) => {
    // A body that is no JSON is one message lost; after a header that cannot be read nothing is in step any more.
    if (!(error instanceof SyntaxError)) process.exit(1);
  });
}

/** Over whatever the client chose on the command line (`--stdio`, `--node-ipc`), as VS Code starts it. */
export function serveClient(): void {
  startServer(createConnection(ProposedFeatures.all), readerFor);
}

// The library is the workspace folder the file lies in; outside every folder it is found as on the command line.
function readerFor(folders: () => readonly string[]): (from: string, path: string) => ImportedText {
  return (from, path) => {
    const file = pathOf(from);
    if (file === undefined) return { kind: "missing", because: "imports are read once this text is saved as a file" };
    const root = folders()
      .flatMap((folder) => pathOf(folder) ?? [])
      .find((folder) => isInside(folder, file));
    const read = readInside(root ?? libraryRoot(file), file, path);
    return read.kind === "read" ? { ...read, file: pathToFileURL(read.file).href } : read;
  };
}

/** Undefined for what is no file of this machine: a text without a name, a virtual folder, another host. */
function pathOf(uri: string): string | undefined {
  try {
    return uri.startsWith("file:") ? fileURLToPath(uri) : undefined;
  } catch {
    return undefined;
  }
}
