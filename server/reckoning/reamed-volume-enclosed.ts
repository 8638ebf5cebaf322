/**
 * The reamed volume a second time, with the most that rounding can have done to it here and in `reamed-volume.ts` together. Written for
 * the comparison alone: sizes are looked up anew at every millimetre, and the area has another formula.
 */
import type { Enclosure } from "../quantity/quantity.ts";
import type { Axis, Station } from "./reamed-volume.ts";

/** In mm³, of the same lengths in mm. Between them lies the sum by trapezoids of 1 mm as it would be without rounding. */
export function enclosedReamedVolume(head: number, width: Axis<unknown>, depth: Axis<unknown>, tip: number): Enclosure {
  if (tip <= 0) return { low: 0, high: 0 };
  const radius = head / 2;
  // Wider than this no rounding of a size makes the head touch.
  const clear = radius * (1 + 2 ** -40);
  const sum = { area: 0, terms: 0, touched: 0 };
  for (let step = 0; step < tip + 1; step++) {
    const at = Math.min(step, tip);
    const [across, back] = [sizeAt(width, at) / 2, sizeAt(depth, at) / 2];
    const short = Math.min(across, back);
    if (short > clear) continue;
    // Each level ends the trapezoid before it and begins the one after it.
    const length = (Math.min(step + 1, tip) - Math.max(step - 1, 0)) / 2;
    const { circle, ellipse } = sectors(radius, short, Math.max(across, back));
    sum.area += length * 2 * (circle - ellipse);
    sum.terms += length * (circle + ellipse);
    sum.touched += length;
  }
  // The area follows a half-axis at most as fast as the circle's outline is long; each term has a few roundings of its own, and two
  // sums have up to a thousand of them.
  const bySizes = sum.touched * Math.PI * radius * (roundingIn(width) + roundingIn(depth));
  const error = bySizes + sum.terms * 2 ** -48 + sum.area * 2 ** -42;
  return { low: sum.area - error, high: sum.area + error };
}

/** Half of what circle and ellipse each sweep in the two horns by which the circle stands out; twice their difference stands out. */
function sectors(radius: number, short: number, long: number): { readonly circle: number; readonly ellipse: number } {
  if (radius <= short) return untouched;
  const [circle, ellipse] = [radius * radius, short * long];
  if (radius >= long) return { circle: (circle * Math.PI) / 2, ellipse: (ellipse * Math.PI) / 2 };
  // Where they cross: (x / long)² + (y / short)² = 1 and x² + y² = radius², solved for the ratio of both.
  const slope = Math.sqrt(((radius - short) * (radius + short)) / ((long - radius) * (long + radius)));
  return { circle: circle * Math.atan((long / short) * slope), ellipse: ellipse * Math.atan(slope) };
}

const untouched = { circle: 0, ellipse: 0 };

/** The size at a level: on the straight line between the stations on either side of it, else that of the nearest. */
function sizeAt(stations: Axis<unknown>, at: number): number {
  let [below] = stations;
  for (const above of stations) {
    if (above.level > at) return above === below ? above.size : between(below, above, at);
    below = above;
  }
  return below.size;
}

function between(below: Station<unknown>, above: Station<unknown>, at: number): number {
  return above.size - ((above.size - below.size) * (above.level - at)) / (above.level - below.level);
}

/** The most that two ways of interpolating a size can differ by rounding; nothing where there is one size. */
function roundingIn([first, ...rest]: Axis<unknown>): number {
  const sizes = rest.map(({ size }) => size);
  if (sizes.length === 0) return 0;
  const [least, most] = [Math.min(first.size, ...sizes), Math.max(first.size, ...sizes)];
  return (5 * (most - least) + most) * 2 ** -52;
}
