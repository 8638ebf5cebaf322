/** The client's settings as far as an answer hangs on them, asked for by document so that each folder may have its own. */
import type { Connection } from "vscode-languageserver";
import { type HintCategory, hintCategories } from "../answers/hints.ts";

/** The section of all settings of this tool. */
export const section = "isthmus";

export interface Settings {
  /** The kinds of hints that are wanted in this text; all where nothing is set. */
  hints(uri: string): Promise<ReadonlySet<HintCategory>>;
  /** To be called when settings changed. */
  changed(): void;
}

export function settingsOver(connection: Connection, canAsk: () => boolean): Settings {
  const known = new Map<string, Promise<ReadonlySet<HintCategory>>>();
  const ask = async (uri: string): Promise<ReadonlySet<HintCategory>> => {
    try {
      return wantedHints(await connection.workspace.getConfiguration({ scopeUri: uri, section }));
    } catch {
      return allHints;
    }
  };
  return {
    hints: (uri) => {
      if (!canAsk()) return Promise.resolve(allHints);
      const asked = known.get(uri) ?? ask(uri);
      known.set(uri, asked);
      return asked;
    },
    changed: () => known.clear(),
  };
}

const allHints: ReadonlySet<HintCategory> = new Set(hintCategories);

/** `isthmus.inlayHints.enabled` switches all, `isthmus.inlayHints.levels` and its like one kind each. */
function wantedHints(settings: unknown): ReadonlySet<HintCategory> {
  const hints = (settings as { readonly inlayHints?: Readonly<Record<string, unknown>> } | null)?.inlayHints ?? {};
  if (hints.enabled === false) return new Set();
  return new Set(hintCategories.filter((category) => hints[category] !== false));
}
