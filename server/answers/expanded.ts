/**
 * A plan with everything in it that it takes from elsewhere: named values put back in their places and reamer heads written out, as far
 * as no number and no finding changes by it, and below, as comments, the catalogue's lines it rests on and the limits in force.
 */

import { parse } from "../../grammar/parse.ts";
import type { Edit } from "../../grammar/problems.ts";
import { limitTable } from "../findings/limit-table.ts";
import { limitsOf } from "../findings/limits.ts";
import { lineBreak } from "../findings/line-edits.ts";
import { statementsIn } from "../findings/tree-walk.ts";
import { visible } from "../findings/words.ts";
import type { Place, Plan } from "../meaning/plan.ts";
import { familyNamed, ofKind } from "../reckoning/given.ts";
import { analysedWith, keepsMeaning } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import { fileName, limitOrigin, limitValue, protocolsOf } from "./limit-text.ts";
import { linesOf } from "./lines.ts";
import { comment, head } from "./printed.ts";
import { headsRewritten } from "./refactor-heads.ts";
import { inlined } from "./refactor-names.ts";
import type { Refactoring } from "./refactorings.ts";

/** `name` is what the head of the text calls the document. */
export function expanded(analysis: Analysis, name: string): string {
  const written = writtenOut(analysis);
  const { document } = written.meaning;
  const below = document?.kind === "plan" ? [...catalogueLines(written, document), ...limitLines(written)] : [];
  const made =
    "with named values and reamer heads written out, the catalogue's lines it rests on and the limits in force";
  const rows = [...head(name, made), ...written.text.split(/\r\n|\n|\r/), ...below];
  return rows.join(lineBreak(analysis.text));
}

/** One refactoring after the other; each leaves one name or one range less, so there is an end to it. */
function writtenOut(analysis: Analysis): Analysis {
  const next = firstOf(analysis);
  return next === undefined ? analysis : writtenOut(analysedWith(analysis, next.edits));
}

function firstOf(analysis: Analysis): Refactoring | undefined {
  const { document, references } = analysis.meaning;
  if (document?.kind !== "plan") return undefined;
  const parts = [document, ...document.fallbacks, ...(document.achieved === undefined ? [] : [document.achieved])];
  const names = references.declarations.filter(({ place }) => place.file === analysis.file);
  const reams = parts.flatMap(({ steps }) => ofKind(steps, "ream"));
  const offers = [
    ...names.flatMap(({ place }) => inlined(analysis, place.span)),
    ...reams.flatMap(({ place }) => headsRewritten(analysis, place.span).filter(({ edits }) => isList(edits))),
  ];
  return offers.find(({ edits }) => keepsMeaning(analysis, edits));
}

function isList(edits: readonly Edit[]): boolean {
  return edits.every(({ text }) => !text.includes(" to "));
}

function catalogueLines({ texts }: Analysis, plan: Plan): readonly string[] {
  const { nail } = plan;
  const holes = new Set(ofKind(plan.steps, "lock").map(({ hole }) => hole.text));
  const families = new Set(
    [...(nail?.holes ?? [])].filter(({ name }) => holes.has(name.text)).flatMap(({ takes }) => takes),
  );
  const named = [...families].flatMap(({ text }) => familyNamed(plan, text)?.place ?? []);
  const places = unique([...(nail === undefined ? [] : [nail.place]), ...named]);
  return places.flatMap((place) => {
    const text = texts.get(place.file) ?? "";
    const from = linesOf(text).position(place.span.start).line + 1;
    const statements = parse(text).tree.statements.flatMap((each) => [...statementsIn(each)]);
    // The place of a nail is its head; the statement has the block with it.
    const { start, end } = (statements.find(({ span }) => span.start === place.span.start) ?? place).span;
    const lines = text.slice(start, end).split(/\r\n|\n|\r/);
    return [comment(`From ${fileName(place.file)}, line ${from}:`), ...lines.map((line) => `# ${visible(line)}`), ""];
  });
}

function unique(places: readonly Place[]): readonly Place[] {
  return [...new Map(places.map((place) => [`${place.file} ${place.span.start}`, place])).values()];
}

function limitLines({ meaning, texts }: Analysis): readonly string[] {
  const protocols = protocolsOf(meaning.document);
  const inForce = limitsOf(protocols);
  const rows = limitTable.map(({ name }) => {
    const limit = inForce.get(name);
    return comment(`${name}: ${limitValue(limit)}, ${limitOrigin(limit, protocols, texts)}`);
  });
  return [comment("Limits in force:"), ...rows, ""];
}
