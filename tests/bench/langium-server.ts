/** A language server as Langium makes it from the general shape of a plan, over stdio. */
import {
  createConnection,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { startLangiumServer } from "./peers.ts";

const connection = createConnection(
  ProposedFeatures.all,
  new StreamMessageReader(process.stdin),
  new StreamMessageWriter(process.stdout),
);
await startLangiumServer(connection);
