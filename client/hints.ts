/**
 * Inlay hints on their way to the screen: none that belong to an older text. What they say, and which kinds are wanted, is the
 * server's to know.
 */
import type { Middleware } from "vscode-languageclient";

export const hintMiddleware: Middleware = {
  provideInlayHints: async (document, range, token, next) => {
    const { version } = document;
    const hints = await next(document, range, token);
    // An answer about an older text is dropped, so that no number stands behind another line; the editor asks again.
    return document.version === version ? hints : [];
  },
};
