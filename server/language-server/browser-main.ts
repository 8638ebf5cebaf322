/** What a browser's editor starts in a worker: the same server, with every import read through the client. */
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from "vscode-languageserver/browser";
import { filesThroughClient } from "./reading-through-client.ts";
import { startServer } from "./server.ts";
import { waitingForImports } from "./waiting.ts";

const port = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];

const connection = createConnection(
  ProposedFeatures.all,
  new BrowserMessageReader(port),
  new BrowserMessageWriter(port),
  { messageStrategy: waitingForImports(() => running) },
);
const running = startServer(connection, filesThroughClient);
