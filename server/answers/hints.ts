/** Inlay hints: at the end of a line, the number the line decides. Each is a reckoning as printed; nothing is computed here. */
import type { Span } from "../../grammar/tree.ts";
import { valueIn } from "../quantity/arithmetic.ts";
import { print, printValue } from "../quantity/print.ts";
import type { Known } from "../quantity/quantity.ts";
import type { Reckoning } from "../reckoning/reckoning.ts";
import type { Analysis } from "./analyse.ts";
import { keyReckonings, statementsOf } from "./statements.ts";

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
      const words = hintWords(reckoning);
      return words === undefined ? [] : [{ words, reckoning }];
    });
    if (shown.length === 0) continue;
    hints.push({
      offset: statement.span.end,
      label: shown.map(({ words }) => words).join(", "),
      tooltip: shown.map(({ reckoning }) => `${reckoning.label}: ${answerOf(reckoning)}`).join("\n"),
    });
  }
  return hints;
}

function answerOf({ answer, unit }: Reckoning): string {
  return answer.kind === "word" ? answer.word : answer.kind === "known" ? print(answer, unit) : answer.because;
}

function hintWords({ id, answer, unit }: Reckoning): string | undefined {
  if (answer.kind === "word") return answer.word;
  if (answer.kind === "unknown") return undefined;
  const value = print(answer, unit);
  const size = printValue(magnitude(answer), unit);
  const signed = (positive: string, negative: string): string =>
    `${size} ${valueIn(answer, unit) < 0 ? negative : positive}`;
  const [subject = "", , ...rest] = id.split(".");
  const last = rest.at(-1) ?? id.split(".")[1] ?? "";
  switch (`${subject}.${last}`) {
    case "ream.over":
      return signed("over the nail", "under the nail");
    case "nail.tip":
      return `tip at ${value}`;
    case "length.margin":
      return `${value} in hand`;
    case "hole.level":
      return `at ${value}`;
    case "screw.beyond":
      return signed("past the far cortex", "short of the far cortex");
    case "compression.amount":
      return value;
    case "compression.left":
      return `${value} travel left`;
    case "compression.gapLeft":
      return `gap left ${value}`;
    case "cap.top":
      return signed("below the bone", "proud of the bone");
    case "compartment.gradient":
      return `gradient ${value}`;
    default:
      return subject === "magnification" ? `× ${value}` : subject === "level" ? `at ${value}` : `${last} ${value}`;
  }
}

function magnitude(quantity: Known): Known {
  return quantity.value < 0 ? { ...quantity, value: -quantity.value } : quantity;
}
