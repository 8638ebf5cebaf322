/** The refactorings at a stretch of text, each tried before it is offered: none of them changes a number or a finding. */
import type { Edit } from "../../grammar/problems.ts";
import type { Span } from "../../grammar/tree.ts";
import { keepsMeaning } from "./again.ts";
import type { Analysis } from "./analyse.ts";
import { headsRewritten } from "./refactor-heads.ts";
import { inlined, namedValue } from "./refactor-names.ts";
import { convertedUnits } from "./refactor-units.ts";

export interface Refactoring {
  readonly title: string;
  readonly kind: "extract" | "inline" | "rewrite";
  /** Edits of the analysed text; none overlaps another. */
  readonly edits: readonly Edit[];
}

const refactorings: readonly ((analysis: Analysis, span: Span) => readonly Refactoring[])[] = [
  namedValue,
  inlined,
  headsRewritten,
  convertedUnits,
];

export function refactoringsIn(
  analysis: Analysis,
  span: Span,
  wants: (kind: Refactoring["kind"]) => boolean,
): readonly Refactoring[] {
  return refactorings
    .flatMap((refactoring) => refactoring(analysis, span))
    .filter(({ kind, edits }) => wants(kind) && keepsMeaning(analysis, edits));
}
