/** Inlay hints: at the end of a line, the number the line decides. Each is a reckoning as printed; nothing is computed here. */
import type { Span } from "../../grammar/tree.ts";
import type { Analysis } from "./analyse.ts";
import { keyReckonings, statementsOf } from "./statements.ts";
import { answerInWords, answerText } from "./wording.ts";

export interface Hint {
  readonly offset: number;
  readonly label: string;
  readonly tooltip: string;
}

export function hintsIn(analysis: Analysis, span: Span): Hint[] {
  const hints: Hint[] = [];
  for (const shaped of statementsOf(analysis.meaning.shaped.statements)) {
    const { statement } = shaped;
    if (statement.block !== undefined || statement.span.end < span.start || statement.span.start > span.end) continue;
    const shown = keyReckonings(analysis, shaped).flatMap((reckoning) => {
      const words = answerInWords(reckoning);
      return words === undefined ? [] : [{ words, reckoning }];
    });
    if (shown.length === 0) continue;
    hints.push({
      offset: statement.span.end,
      label: shown.map(({ words }) => words).join(", "),
      tooltip: shown.map(({ reckoning }) => `${reckoning.label}: ${answerText(reckoning)}`).join("\n"),
    });
  }
  return hints;
}
