/**
 * How the nail fills the canal: its diameter against the reamed canal at the isthmus, and the play it has there and at each edge of the
 * fracture. The canal is as wide as its reading or as the last reamer head, whichever is wider.
 */
import type { Plan } from "../meaning/plan.ts";
import { divide, scale, subtract } from "../quantity/arithmetic.ts";
import { maximum } from "../quantity/elementary.ts";
import { edgesOf, nailDiameterOf } from "./given.ts";
import { earlier, type Ledger, type Subject } from "./ledger.ts";
import { howReached, reachAt, shapeOf } from "./profile.ts";
import type { Basis, Reckoning } from "./reckoning.ts";
import { called, type Operand, reckoned, written } from "./writing.ts";

type Remark = string | (() => string) | undefined;

const ofTibia: Basis = { mark: "printed", text: "nail to canal ratio, 78 tibiae, J Orthop Trauma 2016" };
const ofFemur: Basis = { mark: "printed", text: "nail to canal ratio of the femur, J Orthop Trauma 2018" };
const quotient: Basis = { mark: "computed", text: "quotient of two diameters; no series of the humerus was found" };
const geometry: Basis = { mark: "computed", text: "half the difference of two diameters" };

/** `fit.ratio` (plain), `fit.play` at the isthmus, `fit.play.proximal` and `.distal` at the fracture's edges (mm, each side). */
export const reckonFit: Subject = (ledger) => {
  const { plan } = ledger;
  const diameter = called(nailDiameterOf(plan), "nail diameter");
  const isthmus = earlier(ledger, "canal.isthmus", "isthmus");
  const canal = reamedTo(ledger, [isthmus]);
  const unreamed = ledger.byId.has("ream.final") ? undefined : "the canal is not reamed";
  return [
    reckoned({
      id: "fit.ratio",
      label: "nail to canal ratio",
      answer: divide(diameter.quantity, canal.quantity),
      unit: "1",
      by: ledger.byId.has("ream.final")
        ? written`${diameter} / max(${lastHead(ledger)}, ${isthmus})`
        : written`${diameter} / ${isthmus}`,
      basis: seriesOf(plan),
      remark: unreamed,
    }),
    play("fit.play", "play of the nail at the isthmus, each side", canal, diameter, unreamed),
    ...playAtEdges(ledger, plan, diameter),
  ];
};

function seriesOf(plan: Plan): Basis {
  const bone = plan.case?.bone?.text;
  return bone === "femur" ? ofFemur : bone === "humerus" ? quotient : ofTibia;
}

/** The widest of these canal sizes and the last head. */
function reamedTo(ledger: Ledger, sizes: readonly Operand[]): Operand {
  const all = ledger.byId.has("ream.final") ? [...sizes, lastHead(ledger)] : sizes;
  return {
    name: "canal",
    quantity: maximum(all.map(({ quantity }) => quantity)),
    unit: "mm",
    from: all.flatMap(({ from }) => from),
  };
}

function lastHead(ledger: Ledger): Operand {
  return earlier(ledger, "ream.final", "last head");
}

function playAtEdges(ledger: Ledger, plan: Plan, diameter: Operand): readonly Reckoning[] {
  if (plan.case?.fracture === undefined) {
    return [];
  }
  const canal = shapeOf(plan.measures.canals, "canal");
  const { from, to } = edgesOf(plan);
  return (
    [
      ["proximal", from],
      ["distal", to],
    ] as const
  ).map(([end, edge]) => {
    const reaches = [reachAt(canal, "width", edge.quantity), reachAt(canal, "depth", edge.quantity)];
    const label = `play of the nail at the end of the ${end} fragment, each side`;
    return play(`fit.play.${end}`, label, reamedTo(ledger, reaches), diameter, howReached(reaches));
  });
}

function play(id: string, label: string, canal: Operand, diameter: Operand, remark: Remark): Reckoning {
  return reckoned({
    id,
    label,
    answer: scale(subtract(canal.quantity, diameter.quantity), 0.5),
    unit: "mm",
    by: written`(${canal} - ${diameter}) / 2`,
    basis: geometry,
    remark,
  });
}
