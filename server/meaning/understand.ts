/**
 * The door of this folder: from a parsed text and the files around it to what the document means. It opens the document, hands it
 * to the file of its kind and gathers problems and names; it reads no statement itself.
 */
import type { Parsed } from "../../grammar/parse.ts";
import type { Problem } from "../../grammar/problems.ts";
import { shape } from "../../grammar/shape.ts";
import type { Shaped, ShapedStatement } from "../../grammar/shaped.ts";
import { catalogueOf } from "./catalogue.ts";
import type { Draw } from "./evaluate.ts";
import type { Library } from "./library.ts";
import { openDocument, openingStatement } from "./opening.ts";
import type { Document } from "./plan.ts";
import { planOf } from "./plan-document.ts";
import { inTextOrder } from "./problems.ts";
import { protocolOf } from "./protocol.ts";
import type { Reader } from "./read.ts";
import { noReferences, type References, referencesOf } from "./references.ts";

export interface Meaning {
  /** Undefined when the text opens no plan, catalogue or protocol. */
  readonly document: Document | undefined;
  /** Problems of shape and of meaning in the order of the text; those of the parsed text itself are not repeated. */
  readonly problems: readonly Problem[];
  readonly shaped: Shaped;
  readonly references: References;
}

/**
 * What `parsed` means. `file` is its key in the library. Never throws on any text: what cannot be understood is left out or
 * unknown, with one problem for each mistake. With `draw`, every reading of this text and its imports is drawn and then exact.
 */
export function understand(parsed: Parsed, file: string, library: Library, draw?: Draw): Meaning {
  const shaped = shape(parsed.tree);
  const opening = openingStatement(shaped);
  if (opening === undefined) {
    return { document: undefined, problems: shaped.problems, shaped, references: noReferences };
  }
  const reader = openDocument(parsed, shaped, file, opening, draw);
  const document = documentOf(reader, opening, library);
  const references = referencesOf(reader, opening, document);
  const problems = inTextOrder([...shaped.problems, ...document.problems]);
  return { document: { ...document, problems }, problems, shaped, references };
}

function documentOf(reader: Reader, opening: ShapedStatement, library: Library): Document {
  switch (opening.rule?.word) {
    case "plan":
      return planOf(reader, opening, library);
    case "catalogue":
      return catalogueOf(reader, opening);
    default:
      return protocolOf(reader, opening);
  }
}
