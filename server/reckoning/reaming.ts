/**
 * The reamer heads in the order they are used: the last one, how far it goes over the nail, the widest step between two heads and
 * how the first and the last one meet the isthmus. Bone removed is in `bone-removed.ts`.
 */
import type { Plan } from "../meaning/plan.ts";
import { subtract } from "../quantity/arithmetic.ts";
import { maximum } from "../quantity/elementary.ts";
import { printValue } from "../quantity/print.ts";
import { nailDiameterOf, stepsOf } from "./given.ts";
import { earlier, type Ledger, type Subject } from "./ledger.ts";
import type { Answer, Basis, Reckoning } from "./reckoning.ts";
import { called, givenOperand, isKnown, type Operand, reckoned, written, writtenList } from "./writing.ts";

const typed: Basis = { mark: "computed", text: "as typed" };
const difference: Basis = { mark: "computed", text: "difference of two diameters" };

/** `ream.heads` (in words), `ream.final`, `.over`, `.step`, `.start` and `.overIsthmus` in mm; absent for an unreamed nail. */
export const reckonReaming: Subject = (ledger) => {
  const heads = headsOf(ledger.plan);
  const [first, ...rest] = heads;
  if (first === undefined) {
    return [];
  }
  const last = rest.at(-1) ?? first;
  return [
    headsInWords(heads),
    reckoned({
      id: "ream.final",
      label: "last reamer head",
      answer: last.quantity,
      unit: "mm",
      by: written`${called(last, "last head")}`,
      basis: typed,
    }),
    overNail(ledger, called(last, "last head")),
    ...widestStep(heads),
    overIsthmus(ledger, "ream.start", "first", first),
    overIsthmus(ledger, "ream.overIsthmus", "last", last),
  ];
};

/** All heads of all reaming steps, in the order they are used. */
export function headsOf(plan: Plan): readonly Operand[] {
  return stepsOf(plan, "ream").flatMap(({ heads }) => heads.sizes.map((size) => givenOperand("head", "mm", size)));
}

function headsInWords(heads: readonly Operand[]): Reckoning {
  const blank = heads.find((head) => !isKnown(head));
  const words = heads.map(({ quantity }) => printValue(quantity, "mm").replace(" mm", ""));
  const answer: Answer = blank === undefined ? { kind: "word", word: `${words.join(", ")} mm` } : blank.quantity;
  return reckoned({
    id: "ream.heads",
    label: "reamer heads in order",
    answer,
    unit: "mm",
    by: { ...writtenList("", heads, ", ", ""), symbols: "heads in order" },
    basis: typed,
  });
}

function overNail({ plan }: Ledger, last: Operand): Reckoning {
  const diameter = nailDiameterOf(plan);
  return reckoned({
    id: "ream.over",
    label: "last reamer head over the nail",
    answer: subtract(last.quantity, diameter.quantity),
    unit: "mm",
    by: written`${last} - ${called(diameter, "nail diameter")}`,
    basis: difference,
  });
}

/** One head makes no step. */
function widestStep(heads: readonly Operand[]): readonly Reckoning[] {
  const steps = heads.flatMap((before, index) => {
    const head = heads[index + 1];
    return head === undefined ? [] : [{ head, before, quantity: subtract(head.quantity, before.quantity) }];
  });
  const widest = maximum(steps.map(({ quantity }) => quantity));
  const at = steps.find(({ quantity }) => quantity === widest);
  if (at === undefined) {
    return [];
  }
  return [
    reckoned({
      id: "ream.step",
      label: "widest step between two reamer heads",
      answer: widest,
      unit: "mm",
      by: written`${called(at.head, "next head")} - ${at.before}`,
      basis: difference,
    }),
  ];
}

/** A head, as the first or the last, against the narrowest place. */
function overIsthmus(ledger: Ledger, id: string, which: "first" | "last", head: Operand): Reckoning {
  const isthmus = earlier(ledger, "canal.isthmus", "isthmus");
  return reckoned({
    id,
    label: `${which} reamer head over the isthmus`,
    answer: subtract(head.quantity, isthmus.quantity),
    unit: "mm",
    by: written`${called(head, `${which} head`)} - ${isthmus}`,
    basis: difference,
  });
}
