/**
 * Adding up what a circle takes out of an elliptic canal along its axis, with the derivatives to everything typed. Plain numbers in
 * mm; what is uncertain and how it is told is in `bone-removed.ts`.
 */
import { crescent } from "./crescent.ts";

/** Widths (or depths) at growing levels; straight between them, constant outside. */
export interface Axis {
  readonly levels: readonly number[];
  readonly sizes: readonly number[];
}

/** Derivatives to each level and each size of an axis. */
export interface Slopes {
  readonly byLevel: number[];
  readonly bySize: number[];
}

export interface Volume {
  /** In mm³; the derivatives are in mm². */
  readonly volume: number;
  readonly byHead: number;
  readonly byTip: number;
  readonly width: Slopes;
  readonly depth: Slopes;
}

/** Volume from level 0 to `tip` for a head of diameter `head`, by trapezoids of 1 mm. Both axes have at least one level. */
export function reamedVolume(head: number, width: Axis, depth: Axis, tip: number): Volume {
  const sum = { volume: 0, byHead: 0, width: blank(width), depth: blank(depth) };
  const steps = Math.max(0, Math.ceil(tip));
  let before = 0;
  let byTip = 0;
  for (let step = 0; step <= steps; step++) {
    const at = Math.min(step, tip);
    const weight = (Math.min(step + 1, tip) - Math.max(step - 1, 0)) / 2;
    const [across, back] = [spotAt(width, at), spotAt(depth, at)];
    const { area, byRadius, byFirst, bySecond } = crescent(head / 2, across.size / 2, back.size / 2);
    // The last trapezoid grows by its end's area and stands on a slope.
    const slanted = (byFirst * across.rise + bySecond * back.rise) / 2;
    byTip = (before + area) / 2 + ((at - step + 1) / 2) * slanted;
    before = area;
    if (area === 0) continue;
    sum.volume += weight * area;
    sum.byHead += (weight * byRadius) / 2;
    slope(sum.width, across, (weight * byFirst) / 2);
    slope(sum.depth, back, (weight * bySecond) / 2);
  }
  return { ...sum, byTip: steps === 0 ? 0 : byTip };
}

/** A size between two neighbours: `share` of the way from `lower` to `upper`; both are the same one outside the levels. */
interface Spot {
  readonly size: number;
  readonly lower: number;
  readonly upper: number;
  readonly share: number;
  readonly rise: number;
}

function spotAt({ levels, sizes }: Axis, at: number): Spot {
  const after = levels.findIndex((level) => level > at);
  const upper = after === -1 ? levels.length - 1 : after;
  const lower = after <= 0 ? upper : after - 1;
  const [from = 0, to = 0] = [sizes[lower], sizes[upper]];
  const apart = (levels[upper] ?? 0) - (levels[lower] ?? 0);
  if (apart === 0) {
    return { size: to, lower: upper, upper, share: 0, rise: 0 };
  }
  const share = (at - (levels[lower] ?? 0)) / apart;
  return { size: from + (to - from) * share, lower, upper, share, rise: (to - from) / apart };
}

function blank({ levels }: Axis): Slopes {
  return { byLevel: levels.map(() => 0), bySize: levels.map(() => 0) };
}

/** Shares the derivative to the size at a spot out to its neighbours. */
function slope({ byLevel, bySize }: Slopes, { lower, upper, share, rise }: Spot, bySpot: number): void {
  addTo(bySize, lower, bySpot * (1 - share));
  addTo(bySize, upper, bySpot * share);
  addTo(byLevel, lower, -bySpot * rise * (1 - share));
  addTo(byLevel, upper, -bySpot * rise * share);
}

function addTo(list: number[], index: number, amount: number): void {
  list[index] = (list[index] ?? 0) + amount;
}
