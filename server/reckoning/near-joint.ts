/** How far the driving end lies below the tibia's near joint line, where the plan gives that line. */
import { subtract } from "../quantity/arithmetic.ts";
import { isOtherBone, kneeJointOf, landmarkOf } from "./given.ts";
import { earlier, type Subject } from "./ledger.ts";
import { reckoned, written } from "./writing.ts";

/** `nail.toKneeJoint` in mm after the operation; absent for another bone and where `knee-joint` is not given. */
export const reckonNearJoint: Subject = (ledger) => {
  const { plan } = ledger;
  if (isOtherBone(plan) || landmarkOf(plan, "knee-joint") === undefined) {
    return [];
  }
  const top = earlier(ledger, "nail.topAfter", "top after");
  const joint = kneeJointOf(plan);
  return [
    reckoned({
      id: "nail.toKneeJoint",
      label: "driving end of the nail below the knee joint",
      answer: subtract(top.quantity, joint.quantity),
      unit: "mm",
      by: written`${top} - ${joint}`,
      basis: { mark: "computed", text: "geometry along the canal's axis" },
    }),
  ];
};
