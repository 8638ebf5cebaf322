/** `workspace/symbol`. */
import { SymbolKind } from "vscode-languageserver";
import { type LibrarySymbol, symbolsMatching } from "../../answers/library-symbols.ts";
import type { Context } from "../context.ts";
import { everyFact } from "../library-walk.ts";
import { locator } from "../places.ts";

const kinds: Readonly<Record<LibrarySymbol["kind"], SymbolKind>> = {
  plan: SymbolKind.File,
  catalogue: SymbolKind.File,
  protocol: SymbolKind.File,
  nail: SymbolKind.Class,
  screws: SymbolKind.Class,
  hole: SymbolKind.Field,
  landmark: SymbolKind.Number,
  value: SymbolKind.Number,
  view: SymbolKind.Namespace,
  finding: SymbolKind.Constant,
  limit: SymbolKind.Constant,
  word: SymbolKind.Constant,
};

export function workspaceSymbolRequest(context: Context): void {
  context.connection.onWorkspaceSymbol(async ({ query }, token, progress) => {
    const files = await everyFact(context, token, progress, "Looking through the plans");
    const texts = new Map(files.map(({ file, text }) => [file, text]));
    const locate = locator(context, (file) => texts.get(file));
    return symbolsMatching(files, query).map(({ name, kind, detail, inside, place }) => ({
      name,
      kind: kinds[kind],
      containerName: inside === "" ? detail : `${inside}: ${detail}`,
      location: locate(place),
    }));
  });
}
