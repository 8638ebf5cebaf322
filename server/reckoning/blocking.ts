/**
 * Where a blocking screw has to stand: how far its axis lies from the canal's axis, so that reamers and nail pass it without play. On
 * which side is judged elsewhere.
 */
import type { BlockStep, Plan, ScrewFamily } from "../meaning/plan.ts";
import { add, scale, unknown } from "../quantity/arithmetic.ts";
import type { Unknown } from "../quantity/quantity.ts";
import { familyNamed, nailDiameterOf, stepsOf } from "./given.ts";
import { earlier, type Subject } from "./ledger.ts";
import type { Basis } from "./reckoning.ts";
import { goesWith } from "./screws.ts";
import { called, type Operand, reckoned, typedOperand, unknownOperand, written } from "./writing.ts";

const geometry: Basis = { mark: "computed", text: "two circles that touch: half the sum of their diameters" };

/** `block.N.offset` in mm, one a blocking screw in the order they are placed. */
export const reckonBlocking: Subject = (ledger) => {
  const reamed = ledger.byId.has("ream.final");
  const passing = reamed
    ? earlier(ledger, "ream.final", "last head")
    : called(nailDiameterOf(ledger.plan), "nail diameter");
  return stepsOf(ledger.plan, "block").map((block, index) => {
    const thread = threadOf(ledger.plan, block);
    return reckoned({
      id: `block.${index + 1}.offset`,
      label: "blocking screw's axis from the canal's axis",
      answer: scale(add(passing.quantity, thread.quantity), 0.5),
      unit: "mm",
      by: { ...written`(${passing} + ${thread}) / 2`, also: [block.place] },
      basis: geometry,
      remark: reamed ? undefined : "the canal is not reamed: the nail passes the screw",
    });
  });
};

function threadOf(plan: Plan, block: BlockStep): Operand {
  const family = blockingFamily(plan, block);
  return "because" in family
    ? unknownOperand("thread", family)
    : typedOperand("thread", "mm", family.thread, `screw family ${family.name.text} lists no thread`);
}

/** The family of a blocking screw: the one that is named, else the only listed one that goes with the nail. */
export function blockingFamily(plan: Plan, { family }: BlockStep): ScrewFamily | Unknown {
  if (family !== undefined) {
    return familyNamed(plan, family.text) ?? unknown(`screw family ${family.text} is in no catalogue that was read`);
  }
  const going = plan.screwFamilies.filter((each) => goesWith(each, plan));
  const [only, ...others] = going;
  if (only === undefined) {
    return unknown("no screw of a catalogue is there to block with");
  }
  const names = going.map(({ name }) => name.text).join(" or ");
  return others.length === 0 ? only : unknown(`a blocking screw could be of ${names}, and none is named`);
}
