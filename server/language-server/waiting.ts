/** Requests about a text that waits for its imports wait with it, so that no answer is of half a plan and none has to be asked twice. */
import { Message, type MessageStrategy } from "vscode-languageserver";

export function waitingForImports(imports: (uri: string) => Promise<void> | undefined): MessageStrategy {
  return {
    handleMessage: (message, next) => {
      const uri = Message.isRequest(message) ? askedAbout(message.params) : undefined;
      const arrival = uri === undefined ? undefined : imports(uri);
      if (arrival === undefined) next(message);
      else void arrival.then(() => next(message));
    },
  };
}

/** The URI of the text a request is about. */
function askedAbout(params: unknown): string | undefined {
  const { uri } = (params as { readonly textDocument?: { readonly uri?: unknown } } | null)?.textDocument ?? {};
  return typeof uri === "string" ? uri : undefined;
}
