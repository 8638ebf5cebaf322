/**
 * A catalogue: nails with their holes, screw families and reamers, every list of sizes written out. Nothing is compared with any
 * plan here.
 */
import type { ShapedStatement } from "../../grammar/shaped.ts";
import { closeDocument, titleOf } from "./opening.ts";
import type { Catalogue, CatalogueHole, CatalogueNail, Reamers, ScrewFamily, SizeList } from "./plan.ts";
import type { ProblemList } from "./problems.ts";
import {
  lineSpan,
  placeOf,
  type Reader,
  said,
  saids,
  saidsOfClause,
  sizes,
  typed,
  typedClause,
  within,
} from "./read.ts";
import { childOf, childrenOf, clauseOf, declaredWords } from "./slots.ts";

export function catalogueOf(reader: Reader, opening: ShapedStatement): Catalogue {
  const nails = childrenOf(opening, "nail");
  const families = childrenOf(opening, "screws");
  tellRepeated(reader.problems, nails);
  tellRepeated(reader.problems, families);
  const parts = {
    notice: said(reader, childOf(opening, "notice"), "text"),
    nails: nails.flatMap((block) => nailOf(reader, block) ?? []),
    screws: families.flatMap((block) => familyOf(reader, block) ?? []),
    reamers: childrenOf(opening, "reamers").map((block) => reamersOf(reader, block)),
  };
  return {
    kind: "catalogue",
    file: reader.file,
    title: titleOf(reader, opening),
    statement: opening.statement,
    ...parts,
    problems: closeDocument(reader),
  };
}

/** The same name twice among nails, among families, or among one nail's holes. */
function tellRepeated(problems: ProblemList, statements: readonly ShapedStatement[]): void {
  const first = new Map<string, ShapedStatement["statement"]["span"]>();
  for (const statement of statements) {
    for (const { word } of declaredWords(statement)) {
      const also = first.get(word.name);
      if (also === undefined) {
        first.set(word.name, word.span);
      } else {
        problems.add({ slug: "name-repeated", span: word.span, found: word.name, also });
      }
    }
  }
}

function nailOf(outer: Reader, block: ShapedStatement): CatalogueNail | undefined {
  const name = said(outer, block, "name");
  if (name === undefined) {
    return undefined;
  }
  const reader = within(outer, block);
  const holes = childrenOf(block, "hole");
  tellRepeated(reader.problems, holes);
  const list = (line: string, slot: string, label: string): SizeList | undefined =>
    sizes(reader, childOf(block, line), slot, label);
  const fits = childOf(block, "fits");
  return {
    name,
    place: placeOf(reader, lineSpan(block)),
    bone: said(reader, childOf(block, "for"), "bone"),
    material: said(reader, childOf(block, "material"), "material"),
    modulus: typed(reader, childOf(block, "modulus"), "modulus", "modulus"),
    diameters: list("diameters", "diameters", "nail diameter"),
    lengths: list("lengths", "lengths", "nail length"),
    bore: typed(reader, childOf(block, "bore"), "diameter", "bore"),
    drivingEnd: drivingEndOf(reader, childOf(block, "driving-end")),
    bend: bendOf(reader, childOf(block, "bend")),
    holes: holes.flatMap((line) => holeOf(reader, line) ?? []),
    compression: compressionOf(reader, childOf(block, "compression")),
    caps: list("caps", "extensions", "cap"),
    fits: saids(reader, fits, "codes"),
  };
}

function drivingEndOf(reader: Reader, line: ShapedStatement | undefined): CatalogueNail["drivingEnd"] {
  const diameter = typed(reader, line, "diameter", "driving end");
  if (line === undefined || diameter === undefined) {
    return undefined;
  }
  return { diameter, along: typedClause(reader, line, "along", "length of the driving end") };
}

function bendOf(reader: Reader, line: ShapedStatement | undefined): CatalogueNail["bend"] {
  const angle = typed(reader, line, "angle", "bend");
  return line === undefined || angle === undefined
    ? undefined
    : { angle, at: typedClause(reader, line, "at", "place of the bend") };
}

function compressionOf(reader: Reader, line: ShapedStatement | undefined): CatalogueNail["compression"] {
  if (line === undefined) {
    return undefined;
  }
  return {
    travel: typedClause(reader, line, "travel", "compression travel"),
    pitch: typedClause(reader, line, "pitch", "compression pitch"),
    place: placeOf(reader, lineSpan(line)),
  };
}

function holeOf(reader: Reader, line: ShapedStatement): CatalogueHole | undefined {
  const name = said(reader, line, "name");
  if (name === undefined) {
    return undefined;
  }
  const runs = clauseOf(line, "runs");
  const end = endOf(line);
  return {
    name,
    end,
    distance: end === undefined ? undefined : typedClause(reader, line, end, `${name.text} from ${end}`),
    runs: directionOf(said(reader, runs, "direction")?.text),
    oblique: typed(reader, runs, "angle", `direction of ${name.text}`),
    tilt: typedClause(reader, line, "tilt", `tilt of ${name.text}`),
    slot: typedClause(reader, line, "slot", `slot of ${name.text}`),
    takes: saidsOfClause(reader, line, "takes"),
    place: placeOf(reader, lineSpan(line)),
  };
}

/** Undefined when both ends are given: it is open which is meant, and the text's shape tells so. */
function endOf(line: ShapedStatement): CatalogueHole["end"] {
  const [top, tip] = [clauseOf(line, "top"), clauseOf(line, "tip")];
  if ((top === undefined) === (tip === undefined)) {
    return undefined;
  }
  return top === undefined ? "tip" : "top";
}

function directionOf(word: string | undefined): CatalogueHole["runs"] {
  switch (word) {
    case "medial-lateral":
    case "anterior-posterior":
    case "oblique":
      return word;
    default:
      return undefined;
  }
}

function familyOf(outer: Reader, block: ShapedStatement): ScrewFamily | undefined {
  const name = said(outer, block, "name");
  if (name === undefined) {
    return undefined;
  }
  const reader = within(outer, block);
  const size = (line: string) => typed(reader, childOf(block, line), "diameter", `${line} of ${name.text}`);
  return {
    name,
    thread: size("thread"),
    core: size("core"),
    drill: size("drill"),
    lengths: sizes(reader, childOf(block, "lengths"), "lengths", "screw length"),
    withDiameters: sizes(reader, childOf(block, "with"), "diameters", "nail diameter"),
    place: placeOf(reader, lineSpan(block)),
  };
}

function reamersOf(outer: Reader, block: ShapedStatement): Reamers {
  const reader = within(outer, block);
  return {
    heads: sizes(reader, childOf(block, "heads"), "heads", "reamer head"),
    frontCutting: sizes(reader, childOf(block, "front-cutting"), "heads", "front-cutting head"),
    place: placeOf(reader, lineSpan(block)),
  };
}
