/**
 * The words in which every face of the tool tells an answer and a finding, so that the editor, hovers and the command line never
 * say the same thing twice differently. Nothing is computed here.
 */
import type { Finding } from "../findings/finding.ts";
import { absolute, valueIn } from "../quantity/arithmetic.ts";
import { print } from "../quantity/print.ts";
import type { Reckoning } from "../reckoning/reckoning.ts";

/** A reckoning's answer as a reader sees it: the value with its ±, the word, or why it is withheld. "—" for one that is absent. */
export function answerText(reckoning: Reckoning | undefined): string {
  if (reckoning === undefined) return "—";
  const { answer, unit } = reckoning;
  if (answer.kind === "word") return answer.word;
  return answer.kind === "known" ? print(answer, unit) : `unknown: ${answer.because}`;
}

/** The same short enough for the end of a line: "1 mm over the nail"; undefined when the answer is withheld. */
export function answerInWords({ id, answer, unit }: Reckoning): string | undefined {
  if (answer.kind === "word") return answer.word;
  if (answer.kind === "unknown") return undefined;
  const value = print(answer, unit);
  const size = print(absolute(answer), unit);
  const signed = (positive: string, negative: string): string =>
    `${size} ${valueIn(answer, unit) < 0 ? negative : positive}`;
  const [subject = "", second = "", ...rest] = id.split(".");
  const last = rest.at(-1) ?? second;
  switch (`${subject}.${last}`) {
    case "ream.over":
      return signed("over the nail", "under the nail");
    case "nail.tip":
      return `tip at ${value}`;
    case "tip.toScar":
      return `tip to scar ${value}`;
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

/** A finding's message with the fallback it was found in. */
export function findingText({ message, fallback }: Pick<Finding, "message" | "fallback">): string {
  return fallback === undefined ? message : `${message} (fallback: ${fallback})`;
}

/** Why and by whom a finding is waived; undefined when it is not. */
export function waivedText({ waived }: Pick<Finding, "waived">): string | undefined {
  return waived === undefined ? undefined : `waived: ${waived.because} (${waived.signed})`;
}
