/** Requests about a text that waits for its imports wait with it, so that no answer is of half a plan and none has to be asked twice. */
import { Message, type MessageStrategy } from "vscode-languageserver";

/** The texts are asked for when a message comes: the server that keeps them is started after its connection. */
export function waitingForImports(texts: () => Texts | undefined): MessageStrategy {
  // A fault in making the analysis is met again by the request's own handler, where it becomes an answer.
  const arrivalOf = (uri: string): Promise<void> | undefined => {
    try {
      return texts()?.imports(uri);
    } catch {
      return undefined;
    }
  };
  return {
    handleMessage: (message, next) => {
      const uri = Message.isRequest(message) ? askedAbout(message.params) : undefined;
      const arrival = uri === undefined ? undefined : arrivalOf(uri);
      if (arrival === undefined || uri === undefined) return void next(message);
      const version = (): number | undefined => texts()?.version(uri);
      const asked = version();
      // Positions in a text that has changed since would be read in another one.
      const outdated = { ...message, method: outdatedMethod };
      const then = (): void => void next(version() === asked ? message : outdated);
      void arrival.then(then, then);
    },
  };
}

/** What a request becomes whose text changed while it waited; the handler of this name refuses it. */
export const outdatedMethod = "isthmus/outdated";

/** What messages have to know of the texts. */
export interface Texts {
  /** As `Workspace.imports`. */
  readonly imports: (uri: string) => Promise<void> | undefined;
  /** Of an open text. */
  readonly version: (uri: string) => number | undefined;
}

/** The URI of the text a request is about. */
function askedAbout(params: unknown): string | undefined {
  const { uri } = (params as { readonly textDocument?: { readonly uri?: unknown } } | null)?.textDocument ?? {};
  return typeof uri === "string" ? uri : undefined;
}
