/**
 * The listed end cap that ends nearest below the bone's surface. Whether a cap is needed or wrong is for the rules to say.
 */
import { constant, subtract } from "../quantity/arithmetic.ts";
import type { Known } from "../quantity/quantity.ts";
import { answerOf } from "../reckoning/reckon.ts";
import type { Subject } from "./finding.ts";
import { judgeAtLeast } from "./judging.ts";
import { isLength, lengthsOf } from "./listed-sizes.ts";

const flush = constant(0, "mm");

/** The longest listed cap that leaves nothing proud, and the level of its top; undefined when none does. */
export function capThatFits({
  plan,
  reckonings,
}: Subject): { readonly extension: Known; readonly top: Known } | undefined {
  const after = answerOf(reckonings, "nail.topAfter");
  for (const extension of lengthsOf(plan.nail?.caps).toReversed()) {
    const top = subtract(after, extension);
    if (isLength(top) && judgeAtLeast(top, flush, "error") === undefined) return { extension, top };
  }
  return undefined;
}
