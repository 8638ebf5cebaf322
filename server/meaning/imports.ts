/**
 * Brings in the catalogues and protocols a plan names, through the library it is given. A file that cannot be used is told at its
 * path; what is wrong inside it is told when that file itself is looked at.
 */
import type { Parsed } from "../../grammar/parse.ts";
import { shape } from "../../grammar/shape.ts";
import type { Shaped, ShapedStatement } from "../../grammar/shaped.ts";
import { type Bibliography, entriesOf } from "./bibliography.ts";
import { catalogueOf } from "./catalogue.ts";
import type { Draw } from "./evaluate.ts";
import type { Library } from "./library.ts";
import { openDocument, openingStatement } from "./opening.ts";
import type { Catalogue, Import, Protocol, Said } from "./plan.ts";
import { inTextOrder, type ProblemList } from "./problems.ts";
import { protocolOf } from "./protocol.ts";
import { type Reader, said } from "./read.ts";

/** The catalogues of the plan's `use` lines, in their order. */
export function cataloguesOf(
  reader: Reader,
  lines: readonly ShapedStatement[],
  library: Library,
): readonly Import<Catalogue>[] {
  return importsOf(reader, lines, library, "catalogue");
}

/** The protocols of the plan's `follow` lines, in their order. */
export function protocolsOf(
  reader: Reader,
  lines: readonly ShapedStatement[],
  library: Library,
): readonly Import<Protocol>[] {
  return importsOf(reader, lines, library, "protocol");
}

/** The bibliographies of the plan's `sources` lines, in their order. */
export function bibliographiesOf(
  reader: Reader,
  lines: readonly ShapedStatement[],
  library: Library,
): readonly Bibliography[] {
  return lines.flatMap((line): readonly Bibliography[] => {
    const path = said(reader, line, "path");
    if (path === undefined) return [];
    const opened = library.openText(reader.file, path.text);
    if (opened.kind === "read") return [{ path, read: { file: opened.file, entries: entriesOf(opened.text) } }];
    const slug = opened.kind === "outside" ? "file-outside" : "file-missing";
    const expected = slug === "file-missing" ? { expected: ["a bibliography"] } : {};
    reader.problems.add({ slug, span: path.place.span, found: path.text, ...expected });
    return [{ path, read: undefined }];
  });
}

/** Names that two catalogues of one plan both give leave it open which is meant: told at the later `use`. */
export function tellClashes(problems: ProblemList, imports: readonly Import<Catalogue>[]): void {
  const first = new Map<string, Said>();
  for (const { path, document } of imports) {
    const own = [...(document?.nails ?? []), ...(document?.screws ?? [])].map((part) => part.name.text);
    const clash = own.find((name) => first.has(name));
    const earlier = clash === undefined ? undefined : first.get(clash);
    if (clash !== undefined && earlier !== undefined) {
      problems.add({ slug: "name-repeated", span: path.place.span, found: clash, also: earlier.place.span });
    }
    for (const name of own) {
      first.set(name, first.get(name) ?? path);
    }
  }
}

interface Kinds {
  readonly catalogue: Catalogue;
  readonly protocol: Protocol;
}

function importsOf<K extends keyof Kinds>(
  reader: Reader,
  lines: readonly ShapedStatement[],
  library: Library,
  kind: K,
): readonly Import<Kinds[K]>[] {
  const imports: Import<Kinds[K]>[] = [];
  for (const line of lines) {
    const path = said(reader, line, "path");
    if (path !== undefined) {
      imports.push({ path, document: importOf(reader, path, library, kind) });
    }
  }
  return imports;
}

function importOf<K extends keyof Kinds>(reader: Reader, path: Said, library: Library, kind: K): Kinds[K] | undefined {
  const { span } = path.place;
  const found = path.text;
  const opened = library.open(reader.file, path.text);
  if (opened.kind === "outside") {
    reader.problems.add({ slug: "file-outside", span, found });
    return undefined;
  }
  if (opened.kind !== "read") {
    reader.problems.add({ slug: "file-missing", span, found, expected: [`a ${kind}`] });
    return undefined;
  }
  if (opened.file === reader.file) {
    reader.problems.add({ slug: "file-circular", span, found });
    return undefined;
  }
  const { parsed, file } = opened;
  const document =
    reader.draw === undefined ? understoodOnce(parsed, file) : understandImport(parsed, file, reader.draw);
  if (document?.kind !== kind) {
    const inside = document === undefined ? undefined : { inside: `a ${document.kind}` };
    reader.problems.add({ slug: "file-missing", span, found, expected: [`a ${kind}`], ...inside });
    return undefined;
  }
  return document as Kinds[K];
}

/** A file read by many plans is understood once for each text it had; the text's own tree is the key. */
const understood = new WeakMap<Parsed, { readonly file: string; readonly document: Imported }>();

type Imported = Catalogue | Protocol | { readonly kind: "plan" } | undefined;

function understoodOnce(parsed: Parsed, file: string): Imported {
  const earlier = understood.get(parsed);
  if (earlier !== undefined && earlier.file === file) {
    return earlier.document;
  }
  const document = understandImport(parsed, file, undefined);
  understood.set(parsed, { file, document });
  return document;
}

function understandImport(parsed: Parsed, file: string, draw: Draw | undefined): Imported {
  const shaped = shape(parsed.tree);
  const opening = openingStatement(shaped);
  switch (opening?.rule?.word) {
    case "catalogue":
      return withAllProblems(catalogueOf(openDocument(parsed, shaped, file, opening, draw), opening), parsed, shaped);
    case "protocol":
      return withAllProblems(protocolOf(openDocument(parsed, shaped, file, opening, draw), opening), parsed, shaped);
    case "plan":
      return { kind: "plan" };
    default:
      return undefined;
  }
}

/** Whoever reads an import has to know that something in it is wrong, at whatever stage that showed. */
function withAllProblems<D extends Catalogue | Protocol>(document: D, parsed: Parsed, shaped: Shaped): D {
  return { ...document, problems: inTextOrder([...parsed.problems, ...shaped.problems, ...document.problems]) };
}
