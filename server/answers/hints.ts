/** Inlay hints: at the end of a line, the number the line decides. Each is a reckoning as printed; nothing is computed here. */
import type { Span } from "../../grammar/tree.ts";
import type { Place } from "../meaning/plan.ts";
import type { Reckoning } from "../reckoning/reckoning.ts";
import type { Analysis } from "./analyse.ts";
import { keyReckonings, statementsOf } from "./statements.ts";
import { answerInWords, answerText } from "./wording.ts";

/** The kinds of hints, each of which can be left out. */
export const hintCategories = [
  ...(["levels", "magnification", "reaming", "nail", "screws", "compression", "cap", "compartment"] as const),
] as const;

export type HintCategory = (typeof hintCategories)[number];

export interface Hint {
  readonly offset: number;
  readonly label: string;
  readonly tooltip: string;
  /** The label in parts, one a number, to be joined by commas. */
  readonly parts: readonly HintPart[];
}

export interface HintPart {
  readonly words: string;
  readonly tooltip: string;
  /** The first thing on another line that the number came from. */
  readonly from: Place | undefined;
}

export function hintsIn(analysis: Analysis, span: Span, wanted: ReadonlySet<HintCategory> = everyCategory): Hint[] {
  const hints: Hint[] = [];
  for (const shaped of statementsOf(analysis.meaning.shaped.statements)) {
    const { statement } = shaped;
    if (statement.block !== undefined || statement.span.end < span.start || statement.span.start > span.end) continue;
    const parts = keyReckonings(analysis, shaped)
      .filter(({ id }) => wanted.has(categoryOf(id)))
      .flatMap((reckoning) => partOf(reckoning, statement.span, analysis.file));
    if (parts.length === 0) continue;
    hints.push({
      offset: statement.span.end,
      label: parts.map(({ words }) => words).join(", "),
      tooltip: parts.map(({ tooltip }) => tooltip).join("\n"),
      parts,
    });
  }
  return hints;
}

const everyCategory: ReadonlySet<HintCategory> = new Set(hintCategories);

function partOf(reckoning: Reckoning, line: Span, file: string): readonly HintPart[] {
  const words = answerInWords(reckoning);
  if (words === undefined) return [];
  const elsewhere = reckoning.from.find(
    (place) => place.file !== file || place.span.end < line.start || line.end < place.span.start,
  );
  return [{ words, tooltip: `${reckoning.label}: ${answerText(reckoning)}`, from: elsewhere }];
}

function categoryOf(id: string): HintCategory {
  const [subject = ""] = id.split(".");
  switch (subject) {
    case "magnification":
    case "compression":
    case "cap":
    case "compartment":
      return subject;
    case "ream":
    case "fit":
      return "reaming";
    case "nail":
    case "length":
      return "nail";
    case "screw":
      return "screws";
    default:
      return "levels";
  }
}
