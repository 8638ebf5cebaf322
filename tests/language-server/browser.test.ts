/** The tests of the server's answers, run against the browser's bundle: it answers as the desktop's does. */
import { expect, test } from "vitest";
import { ProtocolClient, speakToWorker } from "./client.ts";

speakToWorker();
await import("./bibliography.test.ts");
await import("./features.test.ts");
await import("./names.test.ts");
await import("./protocol.test.ts");
await import("./propose.test.ts");
await import("./typed.test.ts");

test("it is the worker that is spoken to", () => {
  const client = new ProtocolClient();
  expect(() => client.raw("bytes")).toThrow("not bytes");
  client.kill();
});
