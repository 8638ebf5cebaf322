/**
 * Which segment of the bone the fracture belongs to. By the rule of squares an end segment is a square as high as the end of the bone
 * is wide; the proximal ends of femur and humerus have bounds of their own: the lower edge of the lesser trochanter, and none known.
 */

import type { Plan } from "../meaning/plan.ts";
import { add, compare, subtract, unknown } from "../quantity/arithmetic.ts";
import { printPercent, printValue } from "../quantity/print.ts";
import { probabilityAbove, probabilityBelow } from "../quantity/probability.ts";
import type { Known, Quantity } from "../quantity/quantity.ts";
import { farJointMissing, farJointName, farJointOf, kneeJointOf, lesserTrochanterOf } from "./given.ts";
import { earlier, type Subject } from "./ledger.ts";
import type { Answer, Basis } from "./reckoning.ts";
import {
  type Operand,
  reckoned,
  typedOperand,
  unknownOperand,
  type Written,
  written,
  writtenAfter,
  writtenList,
} from "./writing.ts";

const basis: Basis = {
  mark: "printed",
  text:
    "rule of squares (Heim; Müller), Rockwood and Green 10e, fig. 5-7, which excepts the proximal femur (lower edge of the lesser " +
    "trochanter), the proximal humerus and the malleoli; a centre on the edge counts as in the end, our own reading",
};

export type End = "proximal" | "distal";

/** Where an end segment meets the shaft. */
export interface SegmentEdge {
  /** In mm; unknown with its reason when it is not given or not known for this bone. */
  readonly level: Quantity;
  readonly by: Written;
  /** "proximal square", "lesser trochanter". */
  readonly called: string;
}

export type SegmentEdges = Readonly<Record<End, SegmentEdge>>;

/** `segment`: the word proximal, shaft or distal; unknown while an edge that decides it is unknown. */
export const reckonSegment: Subject = (ledger) => {
  const { plan } = ledger;
  if (plan.case?.fracture === undefined) {
    return [];
  }
  const centre = earlier(ledger, "level.fracture.centre", "centre");
  const edges = segmentEdges(plan);
  const { answer, remark } = decide(centre.quantity, edges);
  return [
    reckoned({
      id: "segment",
      label: "segment of the fracture",
      answer,
      unit: "mm",
      by: formula(centre, edges),
      basis,
      remark,
    }),
  ];
};

/** Both edges of the shaft of the plan's bone. */
export function segmentEdges(plan: Plan): SegmentEdges {
  switch (plan.case?.bone?.text) {
    case "tibia":
      return { proximal: belowKnee(plan), distal: aboveJoint(plan) };
    case "femur":
      return { proximal: belowTrochanter(plan), distal: aboveJoint(plan) };
    case "humerus":
      return {
        proximal: untold("the proximal end of a humerus is not told by a square, and no other bound of it is known"),
        distal: aboveJoint(plan),
      };
    case undefined: {
      const edge = untold("no bone is given");
      return { proximal: edge, distal: edge };
    }
    default: {
      const edge = untold("the ends of this bone are not known");
      return { proximal: edge, distal: edge };
    }
  }
}

function belowKnee(plan: Plan): SegmentEdge {
  const joint = kneeJointOf(plan);
  const side = sideOf(plan, "proximal");
  return {
    level: add(joint.quantity, side.quantity),
    by: written`${joint} + ${side}`,
    called: "proximal square",
  };
}

function aboveJoint(plan: Plan): SegmentEdge {
  const joint = farJointOf(plan) ?? unknownOperand(farJointName(plan), unknown(farJointMissing(plan)));
  const side = sideOf(plan, "distal");
  return {
    level: subtract(joint.quantity, side.quantity),
    by: written`${joint} - ${side}`,
    called: "distal square",
  };
}

function belowTrochanter(plan: Plan): SegmentEdge {
  const because =
    "the proximal end of a femur is not told by a square: it ends at the lesser trochanter, and no landmark " +
    "lesser-trochanter is given";
  const edge = lesserTrochanterOf(plan) ?? unknownOperand("lesser-trochanter", unknown(because));
  return { level: edge.quantity, by: written`${edge}`, called: "lesser trochanter" };
}

function untold(because: string): SegmentEdge {
  const edge = unknownOperand("bound", unknown(because));
  return { level: edge.quantity, by: written`${edge}`, called: "end" };
}

function sideOf(plan: Plan, end: End): Operand {
  const given = plan.measures.epiphyses.find((epiphysis) => epiphysis.end.text === end);
  return typedOperand(`${end} square`, "mm", given?.size, `the width of the ${end} epiphysis is not given`);
}

function formula(centre: Operand, { proximal, distal }: SegmentEdges): Written {
  const near = writtenAfter(written`proximal if ${centre} ≤ `, proximal.by);
  const far = writtenAfter(written`; distal if ${centre} ≥ `, distal.by);
  return writtenAfter(writtenAfter(near, far), writtenList("; else shaft", [], "", ""));
}

interface Decision {
  readonly answer: Answer;
  readonly remark?: () => string;
}

function decide(centre: Quantity, { proximal, distal }: SegmentEdges): Decision {
  if (centre.kind === "unknown") {
    return { answer: centre };
  }
  const [near, far] = [proximal.level, distal.level];
  // One edge is enough when the fracture lies beyond it.
  if (near.kind === "known" && compare(centre, near) <= 0) {
    return { answer: { kind: "word", word: "proximal" }, ...doubt(centre, near, "proximal", proximal) };
  }
  if (far.kind === "known" && compare(centre, far) >= 0) {
    return { answer: { kind: "word", word: "distal" }, ...doubt(centre, far, "distal", distal) };
  }
  if (near.kind === "unknown" || far.kind === "unknown") {
    return { answer: near.kind === "unknown" ? near : far };
  }
  const isNearer = centre.value - near.value <= far.value - centre.value;
  const remark = isNearer ? doubt(centre, near, "proximal", proximal) : doubt(centre, far, "distal", distal);
  return { answer: { kind: "word", word: "shaft" }, ...remark };
}

/** How likely the centre lies in that end, where its uncertainty leaves that open (between 5 % and 95 %). */
function doubt(centre: Known, edge: Known, end: End, { called }: SegmentEdge): { readonly remark?: () => string } {
  const inside = end === "proximal" ? probabilityBelow(centre, edge) : probabilityAbove(centre, edge);
  if (inside < 0.05 || inside > 0.95) {
    return {};
  }
  return {
    remark: () =>
      `edge of the ${called} at ${printValue(edge, "mm")}; ` +
      `probability that the centre lies in ${called.endsWith("square") ? "it" : "that end"}: ${printPercent(inside)}`,
  };
}
