/** The desktop entry: the server over standard input and output, with imports read from the disk inside the workspace's folders. */
import { dirname, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import {
  type Connection,
  type ConnectionOptions,
  createConnection,
  ErrorCodes,
  type Message,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { filesBelow, isInside, libraryRoot, readInside, readNamed } from "../files/disk.ts";
import { type NotKept, revisionsOf, textAtRevision } from "../files/revisions.ts";
import { framingWatch } from "./framing.ts";
import { collectingWhenQuiet } from "./quiet.ts";
import { filesThroughClient } from "./reading-through-client.ts";
import { noRuleLink, type RuleLink, ruleLinks } from "./rule-links.ts";
import { type RunningServer, type Session, startServer } from "./server.ts";
import { waitingForImports } from "./waiting.ts";
import type { Files, ReadUri } from "./workspace.ts";

/** Starts the server; the process ends when the client says so, goes away, or sends bytes in which no message can be found. */
function serveOverStdio(): void {
  const unreadable = framingWatch();
  // First of those that listen: what is refused here is kept by nobody.
  process.stdin.on("data", (bytes: Buffer) => {
    if (unreadable(bytes) !== undefined) process.exit(1);
  });
  const reader = new StreamMessageReader(process.stdin);
  const writer = new StreamMessageWriter(process.stdout);
  const connection = createConnection(ProposedFeatures.all, reader, writer, options);
  const { isShutDown } = start(connection);
  process.stdin.once("end", () => process.exit(isShutDown() ? 0 : 1));
  reader.onError((error) => {
    // A body that is no JSON is one message lost; after a header that cannot be read nothing is in step any more.
    if (!(error instanceof SyntaxError)) process.exit(1);
    // Nobody knows which request it was, if it was one: the protocol's answer to that has no id.
    const lost = { jsonrpc: "2.0", id: null, error: { code: ErrorCodes.ParseError, message: "the body is no JSON" } };
    void writer.write(lost as Message);
  });
}

/** Over whatever the client chose on the command line (`--stdio`, `--node-ipc`), as VS Code starts it. */
export function serveClient(): void {
  if (process.argv.includes("--stdio")) serveOverStdio();
  else start(createConnection(ProposedFeatures.all, options));
}

let running: RunningServer | undefined;
const imports = waitingForImports(() => running);
const notQuiet = collectingWhenQuiet();
const options: ConnectionOptions = {
  messageStrategy: {
    handleMessage: (message, next) => {
      notQuiet();
      return imports.handleMessage(message, next);
    },
  },
};

function start(connection: Connection): RunningServer {
  running = startServer(connection, filesFor, ruleLinkHere());
  return running;
}

/** The page lies in the same place of the tree and of what is packed from it, seen from the bundle or from the source. */
function ruleLinkHere(): RuleLink {
  const [, script] = process.argv;
  if (script === undefined) return noRuleLink;
  for (const path of ["../server/findings/FINDINGS.md", "../findings/FINDINGS.md"]) {
    const page = resolve(dirname(script), path);
    const found = readNamed(page);
    if (found.kind === "read") return ruleLinks(pathToFileURL(page).href, found.text);
  }
  return noRuleLink;
}

// The library is the workspace folder the file lies in; outside every folder it is found as on the command line.
function filesFor(session: Session): Files {
  const elsewhere = filesThroughClient(session);
  const read: ReadUri = (from, path) => {
    const file = pathOf(from);
    if (file === undefined) return elsewhere.read(from, path);
    const root = session
      .folders()
      .flatMap((folder) => pathOf(folder) ?? [])
      .find((folder) => isInside(folder, file));
    const found = readInside(root ?? libraryRoot(file), file, path);
    return found.kind === "read" ? { ...found, file: pathToFileURL(found.file).href } : found;
  };
  const folders = (): readonly string[] => session.folders().flatMap((folder) => pathOf(folder) ?? []);
  const inFolders = (uri: string): string | undefined => {
    const file = pathOf(uri);
    return file !== undefined && folders().some((folder) => isInside(folder, file)) ? file : undefined;
  };
  const kept = async <Answer>(uri: string, ask: (file: string) => Promise<Answer>): Promise<Answer | NotKept> => {
    const file = inFolders(uri);
    return file === undefined ? { because: "it lies outside the open folders" } : ask(file);
  };
  return {
    ...elsewhere,
    // What lies on the disk is there already.
    gather: () => Promise.resolve(),
    read,
    all: () => filesBelow(folders()).files.map((file) => pathToFileURL(file).href),
    text: (uri) => {
      const file = inFolders(uri);
      if (file === undefined) return undefined;
      const found = readNamed(file);
      return found.kind === "read" ? found.text : undefined;
    },
    revisions: {
      list: (uri) => kept(uri, revisionsOf),
      text: (uri, revision) => kept(uri, (file) => textAtRevision(file, revision)),
    },
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
