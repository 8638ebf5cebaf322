/**
 * The cortex that reaming leaves: at every level where both the bone and the canal are read or lie between readings, half of what
 * the bone is wider than the canal or the last head. Nothing is taken from beyond the readings.
 */
import { scale, subtract, unknown } from "../quantity/arithmetic.ts";
import { maximum, minimum } from "../quantity/elementary.ts";
import { printValue } from "../quantity/print.ts";
import type { Quantity } from "../quantity/quantity.ts";
import { earlier, type Ledger, quantityOf, type Subject } from "./ledger.ts";
import { levelsOf, type Reach, reachAt, type Shape, shapeOf, spans } from "./profile.ts";
import type { Basis } from "./reckoning.ts";
import { fixedOperand, type KnownOperand, type Operand, reckoned, unknownOperand, written } from "./writing.ts";

const basis: Basis = { mark: "computed", text: "half the difference of two diameters; no published limit was found" };

/** `ream.cortexLeft` in mm: the thinnest place; absent for an unreamed nail. */
export const reckonCortex: Subject = (ledger) => {
  if (!ledger.byId.has("ream.final")) {
    return [];
  }
  const places = placesOf(ledger);
  const blank = unknown("at no level are the width of the bone and of the canal both known");
  const least = places.length === 0 ? blank : minimum(places.map(({ left }) => left));
  const at = places.find(({ left }) => left === least);
  const head = earlier(ledger, "ream.final", "last head");
  const [bone, canal] = [at?.bone ?? unknownOperand("bone", blank), at?.canal ?? unknownOperand("canal", blank)];
  return [
    reckoned({
      id: "ream.cortexLeft",
      label: "thinnest cortex left by reaming",
      answer: least,
      unit: "mm",
      by: written`(${bone} - max(${canal}, ${head})) / 2`,
      basis,
      remark:
        at &&
        (() => `${at.side} at ${printValue(at.level.quantity, "mm")}, the canal reamed in the middle of the bone`),
    }),
  ];
};

interface At {
  readonly side: "width" | "depth";
  readonly level: KnownOperand;
  readonly bone: Operand;
  readonly canal: Operand;
  readonly left: Quantity;
}

function placesOf(ledger: Ledger): readonly At[] {
  const { bones, canals } = ledger.plan.measures;
  const [bone, canal] = [shapeOf(bones, "bone"), shapeOf(canals, "canal")];
  return (["width", "depth"] as const).flatMap((side) =>
    [...levelsOf(bone, side), ...levelsOf(canal, side)]
      .filter((level) => spans(bone, side, level.quantity) && spans(canal, side, level.quantity))
      .map((level) => at(ledger, { bone, canal, side, level })),
  );
}

function at(
  ledger: Ledger,
  { bone, canal, side, level }: Pick<At, "side" | "level"> & { readonly bone: Shape; readonly canal: Shape },
): At {
  const named = (reach: Reach, name: string): Operand => fixedOperand(name, reach.quantity, "mm", reach.from);
  const outer = named(reachAt(bone, side, level.quantity), `bone ${side}`);
  const inner = named(reachAt(canal, side, level.quantity), `canal ${side}`);
  const hollow = maximum([inner.quantity, quantityOf(ledger.byId, "ream.final")]);
  return { side, level, bone: outer, canal: inner, left: scale(subtract(outer.quantity, hollow), 0.5) };
}
