/** Goes over every file of the library with progress and a way to stop: what each request over all files begins with. */
import {
  type CancellationToken,
  LSPErrorCodes,
  ResponseError,
  type WorkDoneProgressReporter,
} from "vscode-languageserver";
import type { Facts } from "../answers/facts.ts";
import { type Context, requireRunning } from "./context.ts";

/** Files looked at before other requests get their turn. */
const filesAtOnce = 8;

/** The facts of every open text and every file of the folders; a file that cannot be read has none. */
export async function everyFact(
  context: Context,
  token: CancellationToken,
  progress: WorkDoneProgressReporter,
  title: string,
): Promise<readonly Facts[]> {
  requireRunning(context);
  await context.workspace.gather();
  const uris = context.workspace.library();
  const found: Facts[] = [];
  progress.begin(title, 0, undefined, true);
  try {
    for (const [index, uri] of uris.entries()) {
      if (index % filesAtOnce === 0) {
        progress.report(Math.floor((100 * index) / uris.length), `${index} of ${uris.length}`);
        await othersTurn();
      }
      if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, "cancelled");
      const facts = await factsOnceThere(context, uri);
      if (facts !== undefined) found.push(facts);
    }
  } finally {
    progress.done();
  }
  return found;
}

/** A file may name another that is not there either once the first has come. */
async function factsOnceThere({ workspace }: Context, uri: string): Promise<Facts | undefined> {
  let facts = workspace.facts(uri);
  while (facts instanceof Promise) {
    await facts;
    facts = workspace.facts(uri);
  }
  return facts;
}

/** For requests whose client shows none. */
export const noProgress: WorkDoneProgressReporter = { begin: () => {}, report: () => {}, done: () => {} };

function othersTurn(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}
