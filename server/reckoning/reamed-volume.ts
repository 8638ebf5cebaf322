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
  const sum = { volume: 0, byHead: 0, byTip: 0, width: blank(width), depth: blank(depth) };
  if (tip <= 0) return sum;
  const steps = Math.ceil(tip);
  const across = spotOn(width);
  const back = spotOn(depth);
  let before = 0;
  for (let step = 0; step <= steps; step++) {
    const at = Math.min(step, tip);
    move(across, width, at);
    move(back, depth, at);
    // Most of a canal is wider than any head.
    if (across.size >= head && back.size >= head) {
      sum.byTip = before / 2;
      before = 0;
      continue;
    }
    const weight = (Math.min(step + 1, tip) - Math.max(step - 1, 0)) / 2;
    const { area, byRadius, byFirst, bySecond } = crescent(head / 2, across.size / 2, back.size / 2);
    // The last trapezoid grows by its end's area and stands on a slope.
    const slanted = (byFirst * across.rise + bySecond * back.rise) / 2;
    sum.byTip = (before + area) / 2 + ((at - step + 1) / 2) * slanted;
    before = area;
    sum.volume += weight * area;
    sum.byHead += (weight * byRadius) / 2;
    slope(sum.width, across, (weight * byFirst) / 2);
    slope(sum.depth, back, (weight * bySecond) / 2);
  }
  return sum;
}

/**
 * A place that moves along an axis: `share` of the way from the level `lower` to the next, `upper`; both are the same one outside
 * the levels. Kept and moved on, because it is asked at every millimetre.
 */
interface Spot {
  size: number;
  lower: number;
  upper: number;
  share: number;
  rise: number;
}

function spotOn({ sizes }: Axis): Spot {
  return { size: sizes[0] ?? 0, lower: 0, upper: 0, share: 0, rise: 0 };
}

/** Moves the spot on to a level that is not before where it was. */
function move(spot: Spot, { levels, sizes }: Axis, at: number): void {
  while (spot.upper < levels.length && (levels[spot.upper] ?? 0) <= at) {
    spot.lower = spot.upper;
    spot.upper++;
  }
  const last = levels.length - 1;
  const [from, to] = [levels[spot.lower] ?? 0, levels[spot.upper] ?? 0];
  if (spot.upper > last || from > at) {
    spot.size = sizes[spot.lower] ?? 0;
    spot.share = 0;
    spot.rise = 0;
    return;
  }
  const [before, after] = [sizes[spot.lower] ?? 0, sizes[spot.upper] ?? 0];
  spot.share = (at - from) / (to - from);
  spot.rise = (after - before) / (to - from);
  spot.size = before + (after - before) * spot.share;
}

function blank({ levels }: Axis): Slopes {
  return { byLevel: levels.map(() => 0), bySize: levels.map(() => 0) };
}

/** Shares the derivative to the size at a spot out to its neighbours. */
function slope({ byLevel, bySize }: Slopes, { lower, upper, share, rise }: Spot, bySpot: number): void {
  addTo(bySize, lower, bySpot * (1 - share));
  addTo(byLevel, lower, -bySpot * rise * (1 - share));
  if (share === 0) return;
  addTo(bySize, upper, bySpot * share);
  addTo(byLevel, upper, -bySpot * rise * share);
}

function addTo(list: number[], index: number, amount: number): void {
  list[index] = (list[index] ?? 0) + amount;
}
