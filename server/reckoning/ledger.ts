/**
 * What a subject reckons from: the plan, and everything reckoned before it. A later subject reads an earlier answer here and never
 * computes it again. The order of the subjects is in `reckon.ts`.
 */
import type { Plan } from "../meaning/plan.ts";
import { unknown } from "../quantity/arithmetic.ts";
import type { Quantity, Unknown } from "../quantity/quantity.ts";
import type { Reckoning } from "./reckoning.ts";
import { type Operand, operandOf, unknownOperand } from "./writing.ts";

export interface Ledger {
  readonly plan: Plan;
  readonly byId: ReadonlyMap<string, Reckoning>;
}

/** One subject: what it adds to the ledger. It may return an empty list, never throws, and reads only what stands there. */
export type Subject = (ledger: Ledger) => readonly Reckoning[];

/** The answer of `id` as a quantity; unknown when it is not there or is a word. */
export function quantityOf(byId: ReadonlyMap<string, Reckoning>, id: string): Quantity {
  const answer = byId.get(id)?.answer;
  if (answer === undefined) {
    return notReckoned(id);
  }
  return answer.kind === "word" ? unknown(`${id} is a word, not a number`) : answer;
}

function notReckoned(id: string): Unknown {
  return unknown(`${id} is not reckoned for this plan`);
}

/** An earlier answer as an operand called `name`. */
export function earlier({ byId }: Ledger, id: string, name: string): Operand {
  const reckoning = byId.get(id);
  return reckoning === undefined ? unknownOperand(name, notReckoned(id)) : operandOf(reckoning, name);
}
