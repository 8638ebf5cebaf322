/**
 * Which segment of the tibia the fracture belongs to by the rule of squares: an end segment is a square as high as the end of the
 * bone is wide. Other bones have bounds of their own and are left unknown.
 */

import type { Plan } from "../meaning/plan.ts";
import { add, compare, subtract, unknown } from "../quantity/arithmetic.ts";
import { printPercent, printValue } from "../quantity/print.ts";
import { probabilityAbove, probabilityBelow } from "../quantity/probability.ts";
import type { Known } from "../quantity/quantity.ts";
import { kneeJointOf, plafondMissing, plafondOf } from "./given.ts";
import { earlier, type Ledger, type Subject } from "./ledger.ts";
import type { Answer, Basis } from "./reckoning.ts";
import { fixedOperand, type Operand, reckoned, typedOperand, written } from "./writing.ts";

const basis: Basis = {
  mark: "printed",
  text:
    "rule of squares (Heim; Müller), Rockwood and Green 10e, fig. 5-7; a centre on the square's edge counts as in it, " +
    "our own reading",
};

/** `segment`: the word proximal, shaft or distal; unknown while an edge that decides it is unknown. */
export const reckonSegment: Subject = (ledger) => {
  const { plan } = ledger;
  if (plan.case?.fracture === undefined) {
    return [];
  }
  const squares = squaresOf(ledger);
  const { centre, kneeJoint, proximal, distal, plafond } = squares;
  const { answer, remark } = decide(plan, squares);
  return [
    reckoned({
      id: "segment",
      label: "segment of the fracture",
      answer,
      unit: "mm",
      by: written`proximal if ${centre} ≤ ${kneeJoint} + ${proximal}; distal if ${centre} ≥ ${plafond} - ${distal}; else shaft`,
      basis,
      remark,
    }),
  ];
};

interface Squares {
  readonly centre: Operand;
  readonly kneeJoint: Operand;
  readonly proximal: Operand;
  readonly distal: Operand;
  readonly plafond: Operand;
}

function squaresOf(ledger: Ledger): Squares {
  const { plan } = ledger;
  const side = (end: "proximal" | "distal"): Operand => {
    const given = plan.measures.epiphyses.find((epiphysis) => epiphysis.end.text === end);
    return typedOperand(`${end} square`, "mm", given?.size, `the width of the ${end} epiphysis is not given`);
  };
  return {
    centre: earlier(ledger, "level.fracture.centre", "centre"),
    kneeJoint: kneeJointOf(plan),
    proximal: side("proximal"),
    distal: side("distal"),
    plafond: plafondOf(plan) ?? fixedOperand("plafond", unknown(plafondMissing), "mm"),
  };
}

function decide(plan: Plan, squares: Squares): { readonly answer: Answer; readonly remark?: () => string } {
  const bone = plan.case?.bone?.text;
  if (bone !== "tibia") {
    return {
      answer: unknown(bone === undefined ? "no bone is given" : "the rule of squares is reckoned for the tibia"),
    };
  }
  const centre = squares.centre.quantity;
  const proximalEdge = add(squares.kneeJoint.quantity, squares.proximal.quantity);
  const distalEdge = subtract(squares.plafond.quantity, squares.distal.quantity);
  if (centre.kind === "unknown") {
    return { answer: centre };
  }
  // One edge is enough when the fracture lies beyond it.
  if (proximalEdge.kind === "known" && compare(centre, proximalEdge) <= 0) {
    return { answer: { kind: "word", word: "proximal" }, ...doubt(centre, proximalEdge, "proximal") };
  }
  if (distalEdge.kind === "known" && compare(centre, distalEdge) >= 0) {
    return { answer: { kind: "word", word: "distal" }, ...doubt(centre, distalEdge, "distal") };
  }
  if (proximalEdge.kind === "unknown" || distalEdge.kind === "unknown") {
    return { answer: proximalEdge.kind === "unknown" ? proximalEdge : distalEdge };
  }
  const toProximal = centre.value - proximalEdge.value;
  const toDistal = distalEdge.value - centre.value;
  const nearer = toProximal <= toDistal ? "proximal" : "distal";
  return {
    answer: { kind: "word", word: "shaft" },
    ...doubt(centre, nearer === "proximal" ? proximalEdge : distalEdge, nearer),
  };
}

/** How likely the centre lies in that end's square, where its uncertainty leaves that open (between 5 % and 95 %). */
function doubt(centre: Known, edge: Known, end: "proximal" | "distal"): { readonly remark?: () => string } {
  const inside = end === "proximal" ? probabilityBelow(centre, edge) : probabilityAbove(centre, edge);
  if (inside < 0.05 || inside > 0.95) {
    return {};
  }
  return {
    remark: () =>
      `edge of the ${end} square at ${printValue(edge, "mm")}; ` +
      `probability that the centre lies in it: ${printPercent(inside)}`,
  };
}
