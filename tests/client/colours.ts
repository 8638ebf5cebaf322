/** Colours text with the committed grammar as VS Code does, and tells which scopes stand where. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import oniguruma from "vscode-oniguruma";
import textmate, { type IGrammar } from "vscode-textmate";

export interface Piece {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  /** From the outermost to the innermost, the language's own scope and that of the statement left out. */
  readonly scopes: readonly string[];
}

const folder = fileURLToPath(new URL("../../grammar/", import.meta.url));

/** Grammars by scope; Markdown is here as bare text, so that only the fence's own rules work on it. */
const sources: ReadonlyMap<string, () => string> = new Map([
  ["source.isthmus", () => readFileSync(`${folder}isthmus.tmLanguage.json`, "utf8")],
  ["markdown.isthmus.codeblock", () => readFileSync(`${folder}markdown-fence.tmLanguage.json`, "utf8")],
  ["text.html.markdown", () => '{ "scopeName": "text.html.markdown", "patterns": [] }'],
]);

async function registry(): Promise<InstanceType<typeof textmate.Registry>> {
  const wasm = readFileSync(createRequire(import.meta.url).resolve("vscode-oniguruma/release/onig.wasm"));
  await oniguruma.loadWASM(new Uint8Array(wasm));
  return new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async (scope) => {
      const source = sources.get(scope);
      return source === undefined ? null : textmate.parseRawGrammar(source(), `${scope}.json`);
    },
    getInjections: (scope) => (scope === "text.html.markdown" ? ["markdown.isthmus.codeblock"] : []),
  });
}

const grammars = registry();

/** Every piece of the text in order. Throws when there is no grammar of that scope. */
export async function colour(text: string, scope = "source.isthmus"): Promise<readonly Piece[]> {
  const grammar = await (await grammars).loadGrammar(scope);
  if (grammar === null) throw new Error(`No grammar ${scope}`);
  return pieces(grammar, text);
}

function pieces(grammar: IGrammar, text: string): readonly Piece[] {
  const all: Piece[] = [];
  let state = textmate.INITIAL;
  let start = 0;
  for (const line of text.split("\n")) {
    const coloured = grammar.tokenizeLine(line, state);
    for (const { startIndex, endIndex, scopes } of coloured.tokens) {
      all.push({
        start: start + startIndex,
        end: start + Math.min(endIndex, line.length),
        text: line.slice(startIndex, endIndex),
        scopes: scopes.filter((each) => !/^(source|meta\.statement)\.isthmus$/.test(each)),
      });
    }
    state = coloured.ruleStack;
    start += line.length + 1;
  }
  return all;
}

/** The scopes of the piece at an offset, joined by spaces; empty where nothing is coloured. */
export function scopesAt(all: readonly Piece[], offset: number): string {
  return (all.find((each) => each.start <= offset && offset < each.end)?.scopes ?? []).join(" ");
}
