/**
 * How much bone reaming removes: at each level the part of the last head's circle that lies outside the canal's ellipse, added up
 * from the entry to the tip of the nail. Canal and head are taken to share one axis.
 */
import { add, exact, multiply, subtract, unknown, valueIn } from "../quantity/arithmetic.ts";
import { enclosedBy } from "../quantity/enclosure.ts";
import { printNumber, printValue } from "../quantity/print.ts";
import type { Known, Quantity, Unknown } from "../quantity/quantity.ts";
import { distrust } from "./bone-removed-trust.ts";
import { earlier, type Ledger, quantityOf, type Subject } from "./ledger.ts";
import { type Node, shapeOf } from "./profile.ts";
import { type Axis, reamedVolume, type Station, type Volume } from "./reamed-volume.ts";
import { enclosedReamedVolume } from "./reamed-volume-enclosed.ts";
import { headsOf } from "./reaming.ts";
import type { Basis } from "./reckoning.ts";
import { isKnown, reckoned, type Written, written, writtenAfter, writtenList } from "./writing.ts";

const basis: Basis = {
  mark: "computed",
  text: "circle of the last head outside the canal's ellipse, by trapezoids of 1 mm",
};

/** Longer than any bone: beyond it nothing is added up, whatever was typed. */
const longest = 1000;

/** `ream.removed` in ml; absent for an unreamed nail. */
export const reckonBoneRemoved: Subject = (ledger) => {
  if (!ledger.byId.has("ream.final")) {
    return [];
  }
  const head = earlier(ledger, "ream.final", "last head");
  const tip = earlier(ledger, "nail.tip", "tip");
  const canal = canalTo(ledger);
  const circle = written`circle of ${head} outside the canal from 0 mm to ${tip}`;
  const by = "because" in canal ? circle : writtenAfter(circle, sizesOf(canal));
  const answer = "because" in canal ? canal : isKnown(head) ? removed(head.quantity, canal) : head.quantity;
  return [
    reckoned({
      id: "ream.removed",
      label: "bone removed by reaming",
      answer,
      unit: "ml",
      by: { ...by, symbols: "∫ circle of last head outside the canal's ellipse, from 0 to tip" },
      basis,
      remark:
        "because" in canal || !isKnown(head) || answer.kind === "unknown"
          ? undefined
          : () => remarkOn(ledger, canal, head.quantity, answer),
    }),
  ];
};

/** The canal as far as it is reamed. */
interface Canal {
  readonly width: readonly [Node, ...Node[]];
  readonly depth: readonly [Node, ...Node[]];
  readonly tip: Known;
}

function sizesOf({ width, depth }: Canal): Written {
  return writtenList(
    ": ",
    [...width, ...depth].map(({ size }) => size),
    ", ",
    "",
  );
}

function canalTo(ledger: Ledger): Canal | Unknown {
  const { width, depth } = shapeOf(ledger.plan.measures.canals, "canal");
  const tip = quantityOf(ledger.byId, "nail.tip");
  if ("kind" in width) {
    return width;
  }
  if ("kind" in depth) {
    return depth;
  }
  if (tip.kind === "unknown") {
    return tip;
  }
  if (valueIn(tip, "mm") > longest) {
    return unknown("the tip lies farther than any bone is long");
  }
  const closed = [...width, ...depth].some(({ size }) => size.quantity.value <= 0);
  return closed ? unknown("a width of the canal is not above 0") : { width, depth, tip };
}

function removed(head: Known, canal: Canal): Quantity {
  const sum = volumeOf(head, canal);
  const inputs = [
    [head, sum.byHead] as const,
    [canal.tip, sum.byTip] as const,
    ...sum.slopes.flatMap(({ of: { size, level }, bySize, byLevel }) => [
      [size.quantity, bySize] as const,
      [level.quantity, byLevel] as const,
    ]),
  ];
  const volume = exact(sum.volume, "mm³");
  if (volume.kind === "unknown") {
    return volume;
  }
  const again = enclosedReamedVolume(...lengthsOf(head, canal));
  return inputs.reduce<Quantity>((whole, [input, slope]) => add(whole, moves(input, slope)), enclosedBy(volume, again));
}

/** What the uncertainty and the enclosure of one length do to the volume; its value is in the volume already. */
function moves(input: Known, slope: number): Quantity {
  return multiply(subtract(input, exact(input.value, "mm")), exact(slope, "mm²"));
}

function volumeOf(head: Known, canal: Canal): Volume<Node> {
  return reamedVolume(...lengthsOf(head, canal));
}

function lengthsOf(head: Known, { width, depth, tip }: Canal): [number, Axis<Node>, Axis<Node>, number] {
  return [valueIn(head, "mm"), axisOf(width), axisOf(depth), valueIn(tip, "mm")];
}

function axisOf([first, ...rest]: readonly [Node, ...Node[]]): Axis<Node> {
  return [stationOf(first), ...rest.map(stationOf)];
}

function stationOf(node: Node): Station<Node> {
  return { of: node, level: valueIn(node.level.quantity, "mm"), size: valueIn(node.size.quantity, "mm") };
}

function remarkOn(ledger: Ledger, canal: Canal, head: Known, answer: Known): string {
  const told = passes(ledger, canal);
  const doubt = distrust({ ...canal, head }, answer);
  return doubt === undefined ? told : `${told}; ${doubt}`;
}

/** What each head takes in its turn, and where the canal was not read. */
function passes(ledger: Ledger, canal: Canal): string {
  let taken = 0;
  const each = headsOf(ledger.plan)
    .filter(isKnown)
    .map(({ quantity }) => {
      const { volume } = volumeOf(quantity, canal);
      const more = Math.max(0, volume - taken);
      taken = Math.max(taken, volume);
      return `${printValue(quantity, "mm")}: ${printNumber(more / 1000, 2)} ml`;
    });
  return `${each.join(", ")}; canal held constant outside the levels it was read at`;
}
