/** `isthmus/textHash`: which text the server holds, so that a client can find out whether it is its own. */
import { sha256 } from "../../../grammar/sha-256.ts";
import { type Context, requireRunning } from "../context.ts";
import type { OpenDocument } from "../documents.ts";
import { type TextHashAnswer, type TextHashQuestion, textHashMethod } from "../own-requests.ts";

/** `outOfStep` is called with a text that was found to be another one than the client's. */
export function textHashRequest(context: Context, outOfStep: (uri: string) => void): void {
  context.connection.onRequest<TextHashAnswer, void>(textHashMethod, ({ uri, held }: TextHashQuestion) => {
    requireRunning(context);
    const document = context.documents.get(uri);
    if (document === undefined) return null;
    const found = sha256(document.text);
    const inStep = document.inStep && !(held !== undefined && isAnother(document, found, held));
    if (document.inStep && !inStep) {
      context.documents.outOfStep(uri);
      outOfStep(uri);
    }
    return { version: document.version, sha256: found, inStep };
  });
}

/** What came while the client was reckoning its hash is newer than that: then nothing is known. */
function isAnother({ version }: OpenDocument, found: string, held: NonNullable<TextHashQuestion["held"]>): boolean {
  return found !== held.sha256 && version <= held.version;
}
