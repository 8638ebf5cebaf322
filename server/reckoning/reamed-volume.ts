/**
 * Adding up what a circle takes out of an elliptic canal along its axis, with the derivatives to everything typed. Plain numbers in
 * mm; what is uncertain and how it is told is in `bone-removed.ts`.
 */
import { crescent } from "./crescent.ts";

/** A width (or a depth) read at a level; `of` is whatever the caller knows it by. */
export interface Station<Of> {
  readonly of: Of;
  readonly level: number;
  readonly size: number;
}

/** Stations at growing levels; straight between them, constant outside. */
export type Axis<Of> = readonly [Station<Of>, ...Station<Of>[]];

/** Derivatives of the volume to the level and the size of one station, in mm². */
export interface Slope<Of> {
  readonly of: Of;
  byLevel: number;
  bySize: number;
}

export interface Volume<Of> {
  /** In mm³; the derivatives are in mm². */
  readonly volume: number;
  readonly byHead: number;
  readonly byTip: number;
  /** Of the stations of both axes. */
  readonly slopes: readonly Slope<Of>[];
}

/** Volume from level 0 to `tip` for a head of diameter `head`, by trapezoids of 1 mm. */
export function reamedVolume<Of>(head: number, width: Axis<Of>, depth: Axis<Of>, tip: number): Volume<Of> {
  const [across, back] = [spotOn(width), spotOn(depth)];
  const slopes = [...across.slopes, ...back.slopes];
  const sum = { volume: 0, byHead: 0, byTip: 0, slopes };
  if (tip <= 0) return sum;
  const steps = Math.ceil(tip);
  let before = 0;
  for (let step = 0; step <= steps; step++) {
    const at = Math.min(step, tip);
    move(across, at);
    move(back, at);
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
    slope(across, (weight * byFirst) / 2);
    slope(back, (weight * bySecond) / 2);
  }
  return sum;
}

/** A station with its slope, which grows as the volume is added up. */
interface Sloped<Of> extends Station<Of>, Slope<Of> {}

/**
 * A place that moves along an axis: `share` of the way from the station `lower` to the next, `upper`; outside the stations `lower` is
 * the nearest and there is no `upper`. Kept and moved on, because it is asked at every millimetre.
 */
interface Spot<Of> {
  readonly slopes: readonly Sloped<Of>[];
  /** How many stations were passed. */
  passed: number;
  lower: Sloped<Of>;
  upper: Sloped<Of> | undefined;
  size: number;
  share: number;
  rise: number;
}

function spotOn<Of>([first, ...rest]: Axis<Of>): Spot<Of> {
  const sloped = (station: Station<Of>): Sloped<Of> => ({ ...station, byLevel: 0, bySize: 0 });
  const lower = sloped(first);
  const slopes = [lower, ...rest.map(sloped)];
  return { slopes, passed: 0, lower, upper: undefined, size: first.size, share: 0, rise: 0 };
}

/** Moves the spot on to a level that is not before where it was. */
function move<Of>(spot: Spot<Of>, at: number): void {
  let next = spot.slopes[spot.passed];
  while (next !== undefined && next.level <= at) {
    spot.lower = next;
    next = spot.slopes[++spot.passed];
  }
  const { lower } = spot;
  // Before the first station as after the last, the nearest size is held.
  spot.upper = spot.passed === 0 ? undefined : next;
  if (spot.upper === undefined) {
    spot.share = 0;
    spot.rise = 0;
    spot.size = lower.size;
    return;
  }
  spot.share = (at - lower.level) / (spot.upper.level - lower.level);
  spot.rise = (spot.upper.size - lower.size) / (spot.upper.level - lower.level);
  spot.size = lower.size + (spot.upper.size - lower.size) * spot.share;
}

/** Shares the derivative to the size at a spot out to its neighbours. */
function slope<Of>({ lower, upper, share, rise }: Spot<Of>, bySpot: number): void {
  lower.bySize += bySpot * (1 - share);
  lower.byLevel -= bySpot * rise * (1 - share);
  if (upper === undefined) return;
  upper.bySize += bySpot * share;
  upper.byLevel -= bySpot * rise * share;
}
