/**
 * What a test asks of a plan's reckonings: the number of an answer in a unit, its half-width, a word, or why it is unknown. A question
 * that has no such answer fails with the reason.
 */
import { parse } from "../../grammar/parse.ts";
import { exampleDocument } from "../../server/findings/example.ts";
import type { Plan } from "../../server/meaning/plan.ts";
import { understand } from "../../server/meaning/understand.ts";
import { halfWidthIn, valueIn } from "../../server/quantity/arithmetic.ts";
import type { Known } from "../../server/quantity/quantity.ts";
import { answerOf, reckon } from "../../server/reckoning/reckon.ts";
import { planFrom } from "./plan-by-hand.ts";
import { type Numbers, worked } from "./worked-numbers.ts";

/** The worked plan with some of its numbers changed; `undefined` leaves a part out. */
export function workedWith(changes: { readonly [Key in keyof Numbers]?: Numbers[Key] | undefined }): Plan {
  const all = Object.entries({ ...worked, ...changes }).filter(([, value]) => value !== undefined);
  return planFrom(Object.fromEntries(all) as unknown as Numbers);
}

/** The example that the rules' examples are changes of, changed by its words. */
export function exampleWith(...change: readonly (readonly [from: string, to: string])[]): Plan {
  const { file, text, library } = exampleDocument({ change });
  const { document } = understand(parse(text), file, library);
  if (document?.kind !== "plan") throw new Error("the example is a plan");
  return document;
}

export function knownOf(plan: Plan, id: string): Known {
  const answer = answerOf(reckon(plan), id);
  if (answer.kind === "unknown") {
    throw new Error(`${id}: ${answer.because}`);
  }
  return answer;
}

export function numberOf(plan: Plan, id: string, unit = "mm"): number {
  return valueIn(knownOf(plan, id), unit);
}

/** Half-width at k = 2. */
export function plusMinusOf(plan: Plan, id: string, unit = "mm"): number {
  return halfWidthIn(knownOf(plan, id), unit);
}

export function wordOf(plan: Plan, id: string): string {
  const answer = reckon(plan).byId.get(id)?.answer;
  return answer?.kind === "word" ? answer.word : `not a word: ${JSON.stringify(answer)}`;
}

/** Why it is unknown; "known", "a word" or "absent" when it is not. */
export function reasonOf(plan: Plan, id: string): string {
  const answer = reckon(plan).byId.get(id)?.answer;
  if (answer === undefined) return "absent";
  if (answer.kind === "word") return "a word";
  return answer.kind === "known" ? "known" : answer.because;
}
