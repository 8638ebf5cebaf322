/**
 * A whole plan from its opening statement: imports, names, blocks, and the catalogue nail that its nail step means. Each block is
 * read in the file of its own name.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import { aftercareOf } from "./aftercare.ts";
import { caseOf } from "./case.ts";
import { valueOfName } from "./evaluate.ts";
import { viewsOf } from "./images.ts";
import { bibliographiesOf, cataloguesOf, protocolsOf, tellClashes } from "./imports.ts";
import type { Library } from "./library.ts";
import { measuresOf } from "./measures.ts";
import type { NamedEntry } from "./names.ts";
import { closeDocument, titleOf } from "./opening.ts";
import { achievedOf, fallbackOf, stepsOf } from "./operation.ts";
import type { Catalogue, CatalogueNail, Import, Named, Plan, ScrewFamily, Step, Waiver } from "./plan.ts";
import { questionsOf } from "./questions.ts";
import { lineSpan, placeOf, type Reader, said, saidOfClause } from "./read.ts";
import type { Review } from "./record.ts";
import { removalOf } from "./removal.ts";
import { childOf, childrenOf } from "./slots.ts";

export function planOf(reader: Reader, opening: ShapedStatement, library: Library): Plan {
  const uses = cataloguesOf(reader, childrenOf(opening, "use"), library);
  tellClashes(reader.problems, uses);
  const bibliographies = bibliographiesOf(reader, childrenOf(opening, "sources"), library);
  const operation = childOf(opening, "operation");
  const steps = stepsOf(reader, operation);
  const parts = {
    uses,
    follows: protocolsOf(reader, childrenOf(opening, "follow"), library),
    sources: bibliographies.map(({ path }) => path),
    bibliographies,
    status: said(reader, childOf(opening, "status"), "status"),
    summary: said(reader, childOf(opening, "summary"), "text"),
    waivers: childrenOf(opening, "waive").flatMap((line) => waiverOf(reader, line)),
    reviews: childrenOf(opening, "reviewed").flatMap((line) => reviewOf(reader, line)),
    case: caseOf(reader, childOf(opening, "case")),
    views: viewsOf(reader),
    measures: measuresOf(reader, childOf(opening, "measures")),
    steps,
    operation: placeOf(reader, operation === undefined ? opening.statement.word.span : lineSpan(operation)),
    fallbacks: childrenOf(opening, "fallback").map((block) => fallbackOf(reader, block)),
    achieved: achievedOf(reader, childOf(opening, "achieved")),
    aftercare: aftercareOf(reader, childOf(opening, "aftercare")),
    removal: removalOf(reader, childOf(opening, "removal")),
    questions: questionsOf(reader, opening),
    nail: nailOf(uses, steps),
    screwFamilies: familiesOf(uses),
    reamers: uses.flatMap(({ document }) => document?.reamers ?? []),
  };
  const problems = closeDocument(reader);
  const names = reader.names.entries.map((entry) => namedOf(reader, entry));
  const title = titleOf(reader, opening);
  return { kind: "plan", file: reader.file, title, statement: opening.statement, ...parts, names, problems };
}

/** The catalogue nail that the steps' nail step names; with the same name in two catalogues, the first one read. */
export function nailOf(uses: readonly Import<Catalogue>[], steps: readonly Step[]): CatalogueNail | undefined {
  const name = steps.find((step) => step.kind === "nail")?.name?.text;
  const nails = uses.flatMap(({ document }) => document?.nails ?? []);
  return name === undefined ? undefined : nails.find((nail) => nail.name.text === name);
}

/** Each family once; of two with one name the first one read. */
function familiesOf(uses: readonly Import<Catalogue>[]): readonly ScrewFamily[] {
  const families = new Map<string, ScrewFamily>();
  for (const family of uses.flatMap(({ document }) => document?.screws ?? [])) {
    families.set(family.name.text, families.get(family.name.text) ?? family);
  }
  return [...families.values()];
}

function namedOf(reader: Reader, entry: NamedEntry): Named {
  const { kind, word, item, uses } = entry;
  return {
    name: word.name,
    kind,
    typed: { quantity: valueOfName(reader, entry), place: placeOf(reader, (item ?? word).span) },
    declared: placeOf(reader, word.span),
    uses: uses.toSorted((a, b) => a.start - b.start).map((span) => placeOf(reader, span)),
  };
}

function waiverOf(reader: Reader, line: ShapedStatement): readonly Waiver[] {
  const finding = said(reader, line, "finding");
  if (finding === undefined) {
    return [];
  }
  return [
    {
      finding,
      at: said(reader, line, "at"),
      because: saidOfClause(reader, line, "because"),
      signed: saidOfClause(reader, line, "signed"),
      place: placeOf(reader, lineSpan(line)),
    },
  ];
}

function reviewOf(reader: Reader, line: ShapedStatement): readonly Review[] {
  const by = said(reader, line, "by");
  if (by === undefined) {
    return [];
  }
  const [dated, seal] = [saidOfClause(reader, line, "dated"), saidOfClause(reader, line, "seal")];
  return [{ by, dated, seal, place: placeOf(reader, lineSpan(line)) }];
}
