/**
 * The parsers and language services Isthmus is measured beside, each as a function of no arguments that does one whole round of its
 * work. They are general tools for YAML, JSON and any language; their packages are those of this folder, not of the product.
 */
import { createRequire } from "node:module";
import type { Content } from "./as-data.ts";

// Loaded by name at run time: the type check of the whole tree must pass where these packages have not been brought in.
const load = createRequire(import.meta.url);

interface Text {
  readonly uri: string;
}
interface TextModule {
  readonly TextDocument: { create(uri: string, language: string, version: number, text: string): Text };
}
interface Ajv {
  compile(schema: object): (data: unknown) => boolean;
}
interface SchemaConfiguration {
  readonly uri: string;
  readonly fileMatch: readonly string[];
  readonly schema: object;
}
interface YamlService {
  configure(settings: object): void;
  doValidation(text: Text, isKubernetes: boolean): Promise<readonly unknown[]>;
}
interface JsonService {
  configure(settings: object): void;
  parseJSONDocument(text: Text): object;
  doValidation(text: Text, document: object): PromiseLike<readonly unknown[]>;
}
interface UriModule {
  readonly URI: { parse(text: string): object };
}
interface LangiumGrammarModule {
  createServicesForGrammar(settings: {
    readonly grammar: string;
    readonly sharedModule?: object;
  }): Promise<LangiumServices>;
}
interface LangiumLspModule {
  startLanguageServer(shared: object): void;
}
interface LangiumDocument {
  readonly parseResult: { readonly lexerErrors: readonly unknown[]; readonly parserErrors: readonly unknown[] };
  readonly uri: object;
}
interface LangiumServices {
  readonly parser: { readonly LangiumParser: { parse(text: string): LangiumDocument["parseResult"] } };
  readonly shared: {
    readonly workspace: {
      readonly LangiumDocumentFactory: { fromString(text: string, uri: object): LangiumDocument };
      readonly LangiumDocuments: { addDocument(document: LangiumDocument): void; deleteDocument(uri: object): void };
      readonly DocumentBuilder: { build(documents: readonly LangiumDocument[], options: object): Promise<void> };
    };
  };
}

/** Throws when the content does not fit its own schema: a peer that stops at the first fault would be timed for nothing. */
export function ajvOver({ schema, data }: Content): (data: unknown) => boolean {
  const { Ajv: Validator } = load("ajv") as { readonly Ajv: new (options: object) => Ajv };
  const valid = new Validator({ allowUnionTypes: true, strict: false }).compile(schema);
  if (!valid(data)) throw new Error("the generated content does not fit its schema");
  return valid;
}

export function jsonParseAndAjv(content: Content): () => boolean {
  const valid = ajvOver(content);
  return () => valid(JSON.parse(content.json));
}

export function yamlAndAjv(content: Content): () => boolean {
  const { parse } = load("yaml") as { parse(text: string): unknown };
  const valid = ajvOver(content);
  return checked(() => valid(parse(content.yaml)));
}

export function jsYamlAndAjv(content: Content): () => boolean {
  const { load: read } = load("js-yaml") as { load(text: string): unknown };
  const valid = ajvOver(content);
  return checked(() => valid(read(content.yaml)));
}

/** Parses a YAML text alone, for many files. */
export function jsYaml(): (text: string) => unknown {
  return (load("js-yaml") as { load(text: string): unknown }).load;
}

function checked(run: () => boolean): () => boolean {
  if (!run()) throw new Error("the YAML is not the same content");
  return run;
}

export async function yamlService(content: Content): Promise<() => Promise<number>> {
  const { getLanguageService } = (await import(pageOf("yaml-language-server"))) as {
    getLanguageService(parameters: object): YamlService;
  };
  const service = getLanguageService({
    schemaRequestService: () => Promise.reject(new Error("nothing is fetched")),
    workspaceContext: { resolveRelativePath: (path: string) => path },
  });
  service.configure({ validate: true, schemas: schemasFor(content, "*.yaml"), yamlVersion: "1.2" });
  return counted("yaml", content.yaml, (text) => service.doValidation(text, false), broken(content.yaml));
}

export async function jsonService(content: Content): Promise<() => Promise<number>> {
  const { getLanguageService } = load("vscode-json-languageservice") as {
    getLanguageService(parameters: object): JsonService;
  };
  const service = getLanguageService({});
  service.configure({ validate: true, schemas: schemasFor(content, "*.json") });
  const validate = async (text: Text): Promise<readonly unknown[]> =>
    service.doValidation(text, service.parseJSONDocument(text));
  return counted("json", content.json, validate, broken(content.json));
}

function schemasFor({ schema }: Content, pattern: string): readonly SchemaConfiguration[] {
  return [{ uri: "schema://bench/plan.json", fileMatch: [pattern], schema }];
}

/** The same content with a word that no enumeration holds. */
function broken(text: string): string {
  return text.replace('"for-review"', '"nowhere"');
}

/** Each run sees a new version, as after a keystroke; what a service keeps for an old version does not count. */
async function counted(
  language: string,
  text: string,
  validate: (text: Text) => Promise<readonly unknown[]>,
  faulty: string,
): Promise<() => Promise<number>> {
  const { TextDocument } = load("vscode-languageserver-textdocument") as TextModule;
  let version = 0;
  const run = async (now: string): Promise<number> => {
    version += 1;
    return (await validate(TextDocument.create(`file:///bench.${language}`, language, version, now))).length;
  };
  const [clean, found] = [await run(text), await run(faulty)];
  if (clean !== 0 || found === 0) throw new Error(`${language}: ${clean} findings, with a fault planted ${found}`);
  return () => run(text);
}

/** The general shape of a plan: words, items, commas, braces, lines. Langium's own work, without the vocabulary. */
const langiumGrammar = `grammar Plan
entry Document: (statements+=Statement | NEWLINE)*;
Statement: word=NAME items+=Item* (block=Block)? NEWLINE;
Block: open='{' (statements+=Statement | NEWLINE)* '}';
Item: Amount | Name | Text | Operator;
Amount: number=AMOUNT; Name: name=NAME; Text: text=STRING;
Operator: sign=('-' | '+' | '=' | '±') | comma=',' NEWLINE?;
terminal NEWLINE: /\\r?\\n/;
terminal STRING: /"(\\\\.|[^"\\\\\\n])*"/;
terminal AMOUNT: /[0-9]+(\\.[0-9]+)?(?![0-9A-Za-z(.])/;
terminal NAME: /[0-9A-Za-z](-?[0-9A-Za-z()%])*/;
hidden terminal BLANK: /[ \\t]+/;
hidden terminal COMMENT: /#[^\\n]*/;
`;

export async function langium(plan: string): Promise<{ parse: () => unknown; build: () => Promise<unknown> }> {
  const { URI } = (await import(pageOf("langium"))) as UriModule;
  const services = await langiumServices();
  const {
    LangiumDocumentFactory: factory,
    LangiumDocuments: documents,
    DocumentBuilder: builder,
  } = services.shared.workspace;
  const { lexerErrors, parserErrors } = services.parser.LangiumParser.parse(plan);
  if (lexerErrors.length + parserErrors.length > 0) throw new Error("the grammar for Langium does not read the plan");
  let version = 0;
  return {
    parse: () => services.parser.LangiumParser.parse(plan),
    build: async () => {
      version += 1;
      const document = factory.fromString(plan, URI.parse(`file:///bench-${version}.txt`));
      documents.addDocument(document);
      await builder.build([document], { validation: true });
      documents.deleteDocument(document.uri);
    },
  };
}

/** The server Langium makes of the same grammar; it pushes its diagnostics. Texts for it end in `.txt`. */
export async function startLangiumServer(connection: object): Promise<void> {
  const { startLanguageServer } = (await import(pageOf("langium/lsp"))) as LangiumLspModule;
  const services = await langiumServices({ lsp: { Connection: () => connection } });
  startLanguageServer(services.shared);
}

async function langiumServices(sharedModule?: object): Promise<LangiumServices> {
  const { createServicesForGrammar } = (await import(pageOf("langium/grammar"))) as LangiumGrammarModule;
  return createServicesForGrammar({ grammar: langiumGrammar, ...(sharedModule === undefined ? {} : { sharedModule }) });
}

/** Where `import` finds an ES module of this folder's packages; by name at run time, as above. */
function pageOf(name: string): string {
  return import.meta.resolve(name);
}
